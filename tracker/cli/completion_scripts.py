"""The completion scripts of three shells, with every word written out in them."""

from __future__ import annotations

from collections.abc import Sequence

from tracker.cli.completion_words import Typed, everything_typed

GLOBAL = {"--build": "names the build folder", "--help": "says more", "--version": "the release"}

BASH = """\
# Completion of closein for bash. Names are asked of the build; all else is written out here.
_closein_names() {
    closein ${_closein_build:+--build "$_closein_build"} item list --names $1 2>/dev/null
}
_closein() {
    local cur="${COMP_WORDS[COMP_CWORD]}" prev="" first="" second="" i word key words names
    local _closein_build=""
    COMPREPLY=()
    [ "$COMP_CWORD" -gt 0 ] && prev="${COMP_WORDS[COMP_CWORD-1]}"
    i=1
    while [ "$i" -lt "$COMP_CWORD" ]; do
        word="${COMP_WORDS[i]}"
        case "$word" in
            --build) i=$((i + 1)); _closein_build="${COMP_WORDS[i]}" ;;
            -*) ;;
            *) if [ -z "$first" ]; then first="$word"
               elif [ -z "$second" ]; then second="$word"; fi ;;
        esac
        i=$((i + 1))
    done
    [ "$prev" = --build ] && { COMPREPLY=($(compgen -d -- "$cur")); return; }
    if [ -z "$first" ]; then
        COMPREPLY=($(compgen -W "@COMMANDS@ @GLOBAL@" -- "$cur")); return
    fi
    key="$first"
    case "$first $second" in
@SECONDS@
    esac
    case "$key $prev" in
@VALUES@
    esac
    words="" names=""
    case "$key" in
@WORDS@
    esac
    case "$cur" in
        -*) ;;
        *) case "$key" in
@NAMES@
           esac ;;
    esac
    COMPREPLY=($(compgen -W "$words $names" -- "$cur"))
    if [ ${#COMPREPLY[@]} -eq 0 ]; then
        case "$key" in @FILES@) COMPREPLY=($(compgen -f -- "$cur")) ;; esac
    fi
}
"""

ZSH = """\
# Completion of closein for zsh: the bash script, through zsh's own bridge.
autoload -U +X compinit && compinit -u
autoload -U +X bashcompinit && bashcompinit
"""


def script(shell: str) -> str:
    """The completion script of bash, zsh or fish."""
    typed = everything_typed()
    if shell == "fish":
        return fish(typed)
    bash = _bash(typed) + "complete -F _closein closein\n"
    return bash if shell == "bash" else ZSH + bash


def _bash(typed: Sequence[Typed]) -> str:
    rows: dict[str, list[str]] = {"SECONDS": [], "VALUES": [], "WORDS": [], "NAMES": []}
    files: list[str] = []
    for one in typed:
        key = " ".join(one.path)
        if len(one.path) > 1:
            rows["SECONDS"].append(f'        "{key}") key="{key}" ;;')
        for option, kind in one.values.items():
            rows["VALUES"].append(
                f'        "{key} {option}") COMPREPLY=($(compgen -W "$(_closein_names {kind})"'
                ' -- "$cur")); return ;;'
            )
        words = " ".join([*one.words, *one.options])
        rows["WORDS"].append(f'        "{key}") words="{words}" ;;')
        if one.names is not None:
            rows["NAMES"].append(f'            "{key}") names="$(_closein_names {one.names})" ;;')
        if one.files:
            files.append(f'"{key}"')
    text = BASH.replace("@COMMANDS@", " ".join(one.path[0] for one in typed if len(one.path) == 1))
    text = text.replace("@GLOBAL@", " ".join(GLOBAL)).replace("@FILES@", "|".join(files))
    for mark, lines in rows.items():
        text = text.replace(f"@{mark}@", "\n".join(lines))
    return text


FISH = """\
# Completion of closein for fish. Names are asked of the build.
function __closein_words
    set -l words
    set -l skip 0
    for word in (commandline -opc)[2..-1]
        if test $skip = 1
            set skip 0
        else if test "$word" = --build
            set skip 1
        else if not string match -q -- '-*' "$word"
            set -a words "$word"
        end
    end
    string join \\n -- $words
end
function __closein_at
    set -l words (__closein_words)
    test (count $argv) -eq 0; and test (count $words) -eq 0; and return 0
    test "$words[1]" = "$argv[1]"; or return 1
    switch "$argv[2]"
        case ''
            return 0
        case -
            not contains -- "$words[2]" $argv[3..-1]
        case '*'
            test "$words[2]" = "$argv[2]"
    end
end
function __closein_names
    set -l words (commandline -opc)
    set -l at (contains -i -- --build $words)
    if test -n "$at"; and test (count $words) -gt $at
        closein --build $words[(math $at + 1)] item list --names $argv 2>/dev/null
    else
        closein item list --names $argv 2>/dev/null
    end
end
complete -c closein -f
"""


def fish(typed: Sequence[Typed]) -> str:
    """The script for fish."""
    build = GLOBAL["--build"]
    lines = [
        f"complete -c closein -l build -r -a '(__fish_complete_directories)' -d {_quoted(build)}"
    ]
    for one in typed:
        if len(one.path) == 1:
            lines.append(_fish("__closein_at", f"-a {one.path[0]}", one.help))
    for one in typed:
        inner = [other.path[1] for other in typed if other.path[:-1] == one.path]
        here = " ".join(["__closein_at", *one.path, *(["-", *inner] if inner else [])])
        for word, help_text in one.words.items():
            lines.append(_fish(here, f"-a {word}", help_text))
        if one.names is not None:
            lines.append(_fish(here, f"-a {_names(one.names)}", ""))
        if one.files:
            lines.append(_fish(here, "-F", ""))
        for option, help_text in one.options.items():
            what = f"-l {option.removeprefix('--')}"
            if option in one.values:
                what += f" -x -a {_names(one.values[option])}"
            lines.append(_fish(here, what, help_text))
    return FISH + "\n".join(lines) + "\n"


def _names(kind: str) -> str:
    return f"'(__closein_names {kind})'" if kind else "'(__closein_names)'"


def _fish(condition: str, what: str, help_text: str) -> str:
    told = f" -d {_quoted(help_text)}" if help_text else ""
    return f"complete -c closein -n '{condition}' {what}{told}"


def _quoted(text: str) -> str:
    return "'" + text.replace("\\", "\\\\").replace("'", "\\'") + "'"
