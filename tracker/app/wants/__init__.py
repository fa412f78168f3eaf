"""What people want, in their words: each function gives an intent for the session to do.

Names are looked up when the intent is decided, so under the lock and on the newest state.
"""
