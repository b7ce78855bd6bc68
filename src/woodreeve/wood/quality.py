"""Is this firewood good, may it be sold, may it be burnt: the one place to import the answers from.

Classes stand in :mod:`woodreeve.wood.grades`, selling rules in :mod:`woodreeve.wood.selling`, what must
never be burnt in :mod:`woodreeve.wood.refusals`.
"""

from woodreeve.wood.grades import GRADES, Grading, Lot, Origin, grade_firewood
from woodreeve.wood.refusals import Material, may_burn, refuse_if_never_burnt
from woodreeve.wood.selling import MoistureLimit, Nation, SaleVerdict, moisture_limit, sale_of_firewood

__all__ = [
    "GRADES",
    "Grading",
    "Lot",
    "Material",
    "MoistureLimit",
    "Nation",
    "Origin",
    "SaleVerdict",
    "grade_firewood",
    "may_burn",
    "moisture_limit",
    "refuse_if_never_burnt",
    "sale_of_firewood",
]
