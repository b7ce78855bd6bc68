"""Species: names, figures with their sources, blanks, fall-backs and mixtures."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from woodreeve.errors import OutOfRange, UnknownName
from woodreeve.wood import tables
from woodreeve.wood.species import (
    MIXED,
    SPECIES,
    ash_share,
    bark_share,
    basic_density,
    figure_source,
    figures_of,
    green_heart_and_sap,
    green_moisture,
    net_heat_dry,
    shares_of,
    shrinkage,
    species,
    species_figure,
)

FUNCTIONS = (basic_density, green_moisture, shrinkage, net_heat_dry, ash_share, bark_share)

names = st.sampled_from(sorted(SPECIES))


def test_all_species_of_the_reference_are_there() -> None:
    """45 European and 17 North American ones."""
    regions = [kind.region for kind in SPECIES.values()]
    assert (regions.count("europe"), regions.count("north_america")) == (45, 17)


def test_the_densities_add_up_to_the_printed_ones() -> None:
    """A guard against one bad digit: sums over the table of the Global Wood Density Database."""
    own = dict.fromkeys(("europe", "north_america"), 0.0)
    spreads = 0.0
    for kind in SPECIES.values():
        figure = figures_of(kind.key, "basic_density")[0]
        assert figure.spread is not None
        own[kind.region] += figure.value
        spreads += figure.spread
    assert own == {"europe": 23567.0, "north_america": 8800.0}
    assert spreads == 3692.0


@pytest.mark.parametrize(
    ("name", "latin"),
    [
        ("beech", "Fagus sylvatica"),
        ("Fagus sylvatica", "Fagus sylvatica"),
        ("  OAK ", "Quercus robur"),
        ("Douglas-fir", "Pseudotsuga menziesii"),
        ("norway_spruce", "Picea abies"),
        ("mountain ash", "Sorbus aucuparia"),
        ("black locust", "Robinia pseudoacacia"),
    ],
)
def test_a_species_is_found_by_any_of_its_names(name: str, latin: str) -> None:
    """English, Latin and common other names, whatever the capitals and hyphens."""
    assert species(name).latin == latin


def test_no_two_species_share_a_name() -> None:
    """Each name leads to one species only."""
    everything = [
        name
        for kind in (*SPECIES.values(), *MIXED.values())
        for name in {
            spelled.casefold().replace("-", " ").replace("_", " ")
            for spelled in (kind.key, kind.english, kind.latin, *kind.aliases)
            if spelled
        }
    ]
    assert len(everything) == len(set(everything))


def test_an_unknown_species_is_told_with_near_names() -> None:
    """A slip of the pen is helped along."""
    with pytest.raises(UnknownName, match=r"'beach' is not a known species: did you mean .*beech"):
        species("beach")


@given(names)
def test_every_figure_of_every_species_has_a_value_and_says_where_from(name: str) -> None:
    """Blanks fall back, and the fall-back is told in words."""
    for function in FUNCTIONS:
        assert function(name) > 0.0
    for quantity in (
        "basic_density",
        "green_moisture",
        "shrinkage",
        "net_heat_dry",
        "ash_share",
        "bark_share",
    ):
        words = figure_source(name, quantity)
        assert words.startswith(species(name).english)
        assert len(words) > 40


def test_every_source_code_of_every_table_is_known() -> None:
    """No figure points nowhere."""
    for table in ("figures", "stacking", "firewood_classes", "selling_rules", "never_burn"):
        for line in tables.lines(table):
            assert tables.source_text(line["source"])
    with pytest.raises(UnknownName, match="source code"):
        tables.source_text("R999")


def test_blank_cells_stay_blank() -> None:
    """Hornbeam has no heat of its own in the table, holm oak neither sap nor shrinkage."""
    assert figures_of("hornbeam", "net_heat_dry") == ()
    assert figures_of("holm oak", "green_moisture_dry_basis") == figures_of("holm oak", "shrinkage") == ()


def test_a_blank_takes_the_genus_then_the_group_and_says_so() -> None:
    """Holm oak from the oaks, yew from all conifers."""
    assert "its genus Quercus" in figure_source("holm oak", "green_moisture")
    assert "all coniferous species" in figure_source("yew", "green_moisture")
    oaks = [
        green_moisture(name) for name in ("pedunculate oak", "sessile oak", "white oak", "northern red oak")
    ]
    assert green_moisture("holm oak") == pytest.approx(sum(oaks) / 4)


def test_dry_heat_and_ash_fall_back_to_the_typical_values_not_to_the_genus() -> None:
    """18.9 and 19.1 MJ/kg, 0.3 % ash."""
    assert (net_heat_dry("ash"), net_heat_dry("yew")) == (18.9, 19.1)
    assert (ash_share("ash"), ash_share("yew")) == (0.003, 0.003)
    assert "from memory" in figure_source("ash", "net_heat_dry")


def test_a_figure_of_unknown_footing_is_kept_but_not_used() -> None:
    """Beech pellets: net or gross was not visible, so beech takes the typical value."""
    assert figures_of("beech", "heat_basis_unknown")[0].value == 18.6
    assert net_heat_dry("beech") == 18.9


def test_statuses_are_kept_apart() -> None:
    """Read, proxy, group mean and memory stay what they are."""
    assert species_figure("pedunculate oak", "green_moisture").status == "read"
    assert species_figure("pedunculate oak", "shrinkage").status == "proxy"
    assert species_figure("beech", "green_moisture").status == "group_mean"
    assert species_figure("hornbeam", "shrinkage").status == "memory"
    assert [f.value for f in figures_of("pedunculate oak", "shrinkage")] == [0.163, 0.122]


def test_apple_lies_between_its_heartwood_and_its_sapwood() -> None:
    """No whole-log figure was found."""
    parts = green_heart_and_sap("apple")
    assert (parts.heartwood, parts.sapwood) == (0.81, 0.74)
    figure = species_figure("apple", "green_moisture")
    assert figure.low is not None
    assert figure.high is not None
    assert figure.low < figure.value < figure.high
    assert green_heart_and_sap("beech").sapwood is None


@given(names, names, st.floats(0.0, 1.0))
def test_a_mixture_lies_between_its_parts(one: str, other: str, share: float) -> None:
    """For every quantity."""
    if one == other:
        return
    mix = {one: share, other: 1.0 - share}
    for function in FUNCTIONS:
        ends = sorted((function(one), function(other)))
        assert ends[0] - 1e-9 <= function(mix) <= ends[1] + 1e-9


def test_a_mixture_of_one_is_that_species() -> None:
    """And two names of one species add up."""
    assert green_moisture({"ash": 1.0}) == pytest.approx(green_moisture("ash"))
    assert shares_of({"oak": 0.5, "Quercus robur": 0.5}) == {"pedunculate_oak": 1.0}


@pytest.mark.parametrize("mix", [{"ash": 0.5}, {"ash": 50.0, "oak": 50.0}, {"ash": 1.5, "oak": -0.5}, {}])
def test_shares_that_are_no_shares_are_refused(mix: dict[str, float]) -> None:
    """Per cent, gaps and negative parts."""
    with pytest.raises(OutOfRange, match="share"):
        basic_density(mix)
