"""`awlwright completion SHELL`: a script that lets a shell complete commands, options and pattern files.

Made from the commands themselves, so that it knows exactly what they take.
"""

from __future__ import annotations

from argparse import Action, ArgumentParser, Namespace
from collections.abc import Callable

from drafting.cli.commands import COMMANDS, command_module
from drafting.cli.exits import FINE
from drafting.cli.values import one_of
from drafting.cli.words import CommandParser, parser_of

TELLS = "Print a script that lets a shell complete commands, options, starters and pattern files."
EXAMPLES = (
    "awlwright completion bash > ~/.local/share/bash-completion/completions/awlwright",
    "awlwright completion zsh > ~/.zfunc/_awlwright",
    "awlwright completion fish > ~/.config/fish/completions/awlwright.fish",
)


def add_arguments(parser: ArgumentParser) -> None:
    parser.add_argument(
        "shell",
        metavar="SHELL",
        type=one_of("awlwright completion", "shell", SCRIPTS),
        help=f"one of {', '.join(SCRIPTS)}",
    )


def run(given: Namespace) -> int:
    print(SCRIPTS[given.shell](), end="")
    return FINE


def parsers() -> dict[str, CommandParser]:
    return {name: parser_of(name, command_module(name)) for name in COMMANDS}


def words_for(name: str) -> list[str]:
    """The fixed words that may follow a command."""
    if name == "rules":
        from drafting.craft.rules import RULES

        return [rule.code for rule in RULES]
    return list(SCRIPTS) if name == "completion" else []


def bash_script() -> str:
    cases = "\n".join(
        f'        {name}) words="{" ".join([*parser.option_names, *words_for(name)])}" ;;'
        for name, parser in parsers().items()
    )
    return f"""\
_awlwright() {{
    local current="${{COMP_WORDS[COMP_CWORD]}}" before="${{COMP_WORDS[COMP_CWORD-1]}}" words=""
    if [ "$COMP_CWORD" -eq 1 ]; then
        COMPREPLY=($(compgen -W "{" ".join(COMMANDS)} --help --version" -- "$current"))
        return
    fi
    case "$before" in
        --out) local IFS=$'\\n'; COMPREPLY=($(compgen -d -- "$current")); return ;;
        --from) COMPREPLY=($(compgen -W "$(awlwright new --list | cut -d ' ' -f 1)" -- "$current")); return ;;
    esac
    case "${{COMP_WORDS[1]}}" in
{cases}
    esac
    COMPREPLY=($(compgen -W "$words" -- "$current"))
    local IFS=$'\\n'
    COMPREPLY+=($(compgen -f -X '!*.draft' -- "$current") $(compgen -d -- "$current"))
}}
complete -o filenames -F _awlwright awlwright
"""


def zsh_script() -> str:
    commands = "\n".join(f"        {quoted(f'{name}:{summary}')}" for name, summary in COMMANDS.items())
    cases = "\n".join(zsh_case(name, parser) for name, parser in parsers().items())
    return f"""\
#compdef awlwright
_awlwright() {{
    local -a commands
    commands=(
{commands}
    )
    if (( CURRENT == 2 )); then
        _describe command commands
        return
    fi
    case "$words[2]" in
{cases}
    esac
}}
_awlwright "$@"
"""


def zsh_case(name: str, parser: CommandParser) -> str:
    rows = [zsh_option(action) for action in parser.option_actions]
    rest = f"*:word:({' '.join(words_for(name))})" if words_for(name) else '*:pattern:_files -g "*.draft"'
    listed = " \\\n                ".join([*rows, quoted(rest)])
    return f"        {name}) shift words; (( CURRENT-- )); _arguments \\\n                {listed} ;;"


def zsh_option(action: Action) -> str:
    told = (action.help or "").replace("[", "(").replace("]", ")").replace(":", " -")
    value = "" if action.nargs == 0 else f":{action.metavar}:{ZSH_VALUES.get(action.option_strings[-1], '')}"
    return quoted(f"*{action.option_strings[-1]}[{told}]{value}")


ZSH_VALUES = {
    "--out": "_files -/",
    "--from": "($(awlwright new --list | cut -d ' ' -f 1))",
}


def fish_script() -> str:
    lines = ["complete -c awlwright -f"]
    for name, summary in COMMANDS.items():
        lines.append(f"complete -c awlwright -n __fish_use_subcommand -a {name} -d {quoted(summary)}")
    for name, parser in parsers().items():
        lines += fish_lines(name, parser)
    return "\n".join(lines) + "\n"


def fish_lines(name: str, parser: CommandParser) -> list[str]:
    seen = f"complete -c awlwright -n '__fish_seen_subcommand_from {name}'"
    rest = quoted(" ".join(words_for(name))) if words_for(name) else "'(__fish_complete_suffix .draft)'"
    return [f"{seen} -a {rest}", *(f"{seen} {fish_option(action)}" for action in parser.option_actions)]


def fish_option(action: Action) -> str:
    option = action.option_strings[-1]
    value = "" if action.nargs == 0 else f" -x {FISH_VALUES.get(option, '')}".rstrip()
    return f"-l {option.removeprefix('--')}{value} -d {quoted(action.help or '')}"


FISH_VALUES = {
    "--out": "-a '(__fish_complete_directories)'",
    "--from": "-a \"(awlwright new --list | string replace -r ' .*' '')\"",
}


def quoted(text: str) -> str:
    """In single quotes; a quote inside steps out of them for a moment, in a way all three shells read."""
    return "'" + text.replace("'", "'\\''") + "'"


SCRIPTS: dict[str, Callable[[], str]] = {"bash": bash_script, "zsh": zsh_script, "fish": fish_script}
