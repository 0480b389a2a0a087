"""The command `awlwright`: words in, printed lines, files and an exit code out.

One file a command, and thin: parse the words, call the package, print. What a command needs beyond the
words is imported when it runs, so that help and wrong use answer at once. Decides nothing about patterns.
"""
