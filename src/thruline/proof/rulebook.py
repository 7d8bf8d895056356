"""All rules, found by their place: a file in a family's folder is a rule."""

import importlib
import pkgutil
from functools import lru_cache

from thruline.base.errors import CannotUse
from thruline.proof import rules
from thruline.proof.rule import Rule
from thruline.rig.nearest import nearest

FAMILIES = (
    "document",
    "arrival",
    "understanding",
    "time",
    "sameness",
    "capacity",
    "power",
    "sound",
)
"""Families in the order in which a technician would mend them."""


@lru_cache(maxsize=1)
def rulebook() -> tuple[Rule, ...]:
    """Every rule, family by family."""
    found = []
    for family in FAMILIES:
        package = importlib.import_module(f"{rules.__name__}.{family}")
        names = sorted(module.name for module in pkgutil.iter_modules(package.__path__))
        for name in names:
            module = importlib.import_module(f"{package.__name__}.{name}")
            rule: Rule = module.RULE
            found.append(rule)
    return tuple(found)


def rule_called(name: str) -> Rule:
    """The rule of this id. Raises CannotUse with the nearest id when there is none."""
    by_id = {rule.id: rule for rule in rulebook()}
    if name not in by_id:
        meant = nearest(name, by_id)
        hint = f'; did you mean "{meant}"?' if meant else "; `thruline rules` lists them"
        raise CannotUse(f'there is no rule "{name}"{hint}')
    return by_id[name]
