"""The yard: own measures, stacks and what they hold as heat."""
