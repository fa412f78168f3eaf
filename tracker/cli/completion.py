"""``closein completion``: a script that completes commands, options and names in the shell."""

from __future__ import annotations

import argparse

from tracker.cli.desk import Desk

SUMMARY = "Print the script that completes closein's words and the names of a build."
EXAMPLES = """\
  closein completion bash > ~/.local/share/bash-completion/completions/closein
  eval "$(closein completion zsh)"                      in ~/.zshrc
  closein completion fish > ~/.config/fish/completions/closein.fish"""
SHELLS = ("bash", "zsh", "fish")


def arguments(parser: argparse.ArgumentParser) -> None:
    """What may follow the command word."""
    parser.add_argument("shell", choices=SHELLS, metavar="bash|zsh|fish", help="your shell")


def run(args: argparse.Namespace, desk: Desk) -> int:
    """Print it. All words stand in it, so completing starts the program only for names."""
    from tracker.cli.completion_scripts import script

    desk.write(script(args.shell))
    return 0
