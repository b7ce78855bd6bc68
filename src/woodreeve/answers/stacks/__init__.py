"""Answers what is in each stack, how wet it is, when it is ready, and which to burn first."""

from woodreeve.answers.stacks.lines import StackLine
from woodreeve.answers.stacks.one import StackAnswer, one_stack
from woodreeve.answers.stacks.ready import ReadyWhen
from woodreeve.answers.stacks.tried import TriedAnswer, TriedLine, tried
from woodreeve.answers.stacks.yard import KeptLine, RoundLine, StacksAnswer, answer

__all__ = [
    "KeptLine",
    "ReadyWhen",
    "RoundLine",
    "StackAnswer",
    "StackLine",
    "StacksAnswer",
    "TriedAnswer",
    "TriedLine",
    "answer",
    "one_stack",
    "tried",
]
