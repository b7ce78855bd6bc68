"""The first page at once: answers, formulas and drawings made in the background when the server starts."""

from __future__ import annotations

import logging
from threading import Thread

from woodreeve.answers import diary, stacks, tonight, winter
from woodreeve.charts import stacks as stacks_charts
from woodreeve.charts import tonight as tonight_charts
from woodreeve.charts import winter as winter_charts
from woodreeve.records.household import Household
from woodreeve.web.drawings import Drawings, draw_all
from woodreeve.web.kernels import KERNELS
from woodreeve.workings.load import load_all

__all__ = ["start_warming"]


def start_warming(household: Household, drawings: Drawings) -> Thread:
    """Begin to work out what the first pages will ask for; they wait for none of it.

    Parameters
    ----------
    household : Household
        Whose pages.
    drawings : Drawings
        Where the pictures are kept.

    Returns
    -------
    Thread
        Running; join it before the household is closed.
    """
    thread = Thread(target=_warm, args=(household, drawings), name="warming", daemon=True)
    thread.start()
    return thread


def _warm(household: Household, drawings: Drawings) -> None:
    try:
        household.warm()
        asking = household.ask()
        household.remembered(diary.answer, asking)
        of_stacks = household.remembered(stacks.answer, asking)
        of_winter = household.remembered(winter.answer, asking)
        draw_all(drawings, asking, stacks.answer, of_stacks, stacks_charts.of)
        draw_all(drawings, asking, winter.answer, of_winter, winter_charts.of)
        if KERNELS.are_ready:
            of_tonight = household.remembered(tonight.answer, asking)
            draw_all(drawings, asking, tonight.answer, of_tonight, tonight_charts.of)
        load_all()
    except Exception:
        # The page that needs it will meet the same fault and tell it in a sentence.
        logging.getLogger("woodreeve.web").info("could not work ahead", exc_info=True)
