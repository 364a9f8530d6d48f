"""Forms for the swap: a want, portions offered at most, and how one swaps."""

from __future__ import annotations

from collections.abc import Callable

from seedbox.errors import BadDataError
from seedbox.season.crops import CropBook
from seedbox.season.swapping.spare import Spare
from seedbox.season.swapping.wants import Taken
from seedbox.season.swapping.words import named
from seedbox.tin.file import Tin
from seedbox.tin.list_records import USUAL_WORTH, SwapWord, Want
from seedbox.tin.preferences import CHOICES, parse_setting
from seedbox.tin.settings import set_settings
from seedbox.tin.swap_choices import set_swap_choice
from seedbox.tin.wants import add_want, change_want, check_want, tidied, want_key
from seedbox.tui.crop_field import CropNames, crop_meant
from seedbox.tui.desk import Desk
from seedbox.tui.field_values import FieldReader
from seedbox.tui.form import Field, FormPlan, Values
from seedbox.tui.sowing_words import counted
from seedbox.tui.swap_words import LAW, WORTH_WORDS

_WORTHS = tuple(f"{worth} {word}" for worth, word in sorted(WORTH_WORDS.items()))


def want_plan(desk: Desk, want: Want | None) -> FormPlan:
    """Asks what is wanted, how much of it, and how dear it is."""
    tin = desk.tin(create=True)
    book = CropBook(tin.settings(), tin.own_crops())

    def save(values: Values) -> str:
        wanted = _want_from(values, want, book, desk)
        desk.change(lambda tin: _set(tin, want, wanted))
        what = named(book.name(wanted.crop_id), wanted.variety)
        return f"Wanted: {counted(wanted.portions, 'portion')} of {what}. u takes it back."

    return FormPlan(
        title="What you would like" if want is None else f"Want of {book.name(want.crop_id)}",
        fields=[
            Field("crop", "Crop", "Any common name, British or American.", suggest=CropNames(book)),
            Field("variety", "Variety", "Empty: any variety will do."),
            Field("portions", "Portions", "A portion is enough to grow a household's plants."),
            Field("worth", "How dear", "Left and right arrows choose.", _WORTHS),
            Field("note", "Note", "For yourself: it stands on no list."),
        ],
        save=save,
        initial=_values(want or Want(0, "", worth=USUAL_WORTH), book),
        draft_key="want" if want is None else f"want {want.id}",
        advice="At a swap the dearest wants are served first, as far as it is fair.",
    )


def _values(want: Want, book: CropBook) -> Values:
    return {
        "crop": book.name(want.crop_id) if want.crop_id else "",
        "variety": want.variety,
        "portions": str(want.portions),
        "worth": _WORTHS[want.worth - 1],
        "note": want.note,
    }


def _want_from(values: Values, before: Want | None, book: CropBook, desk: Desk) -> Want:
    reader = FieldReader(values, desk.today)
    want = tidied(
        Want(
            before.id if before else 0,
            crop_meant(reader, before.crop_id if before else "", book),
            reader.text("variety"),
            reader.count("portions", needed=True),
            _WORTHS.index(values["worth"]) + 1,
            reader.text("note"),
        )
    )
    for problem in check_want(want):
        reader.fault(problem.field, problem.sentence)
    same = (one for one in desk.tin().wants() if one.id != want.id)
    if any(want_key(one) == want_key(want) for one in same):
        reader.fault("crop", "That is wanted already: change it in the list of wants.")
    reader.finish()
    return want


def _set(tin: Tin, before: Want | None, wanted: Want) -> Want:
    if before is not None:
        return change_want(
            tin, before.id, crop_id=wanted.crop_id, variety=wanted.variety,
            portions=wanted.portions, worth=wanted.worth, note=wanted.note,
        )  # fmt: skip
    return add_want(
        tin, wanted.crop_id, variety=wanted.variety, portions=wanted.portions,
        worth=wanted.worth, note=wanted.note,
    )  # fmt: skip


def limit_plan(desk: Desk, one: Spare) -> FormPlan:
    """Asks how many portions of a packet are offered at most."""
    what = named(one.line.crop, one.line.packet.variety)

    def save(values: Values) -> str:
        reader = FieldReader(values, desk.today)
        most = reader.count("portions", needed=True)
        if not reader.problems and not 1 <= most <= one.could_give:
            reader.fault("portions", f"1 to {one.could_give} can be given; K keeps all of it back.")
        reader.finish()
        packet = one.line.packet
        desk.change(lambda tin: set_swap_choice(tin, packet, SwapWord.OFFER, portions=most))
        return f"Offered: at most {counted(most, 'portion')} of {what}. u takes it back."

    said = one.choice.portions if one.choice else None
    mind = f" Mind: {' '.join(one.offer.cautions)} {LAW}" if one.offer.cautions else ""
    return FormPlan(
        title=f"Offer at most: {what} ({one.line.code})",
        fields=[Field("portions", "Portions", f"{one.could_give} can be given.")],
        save=save,
        initial={"portions": str(said or one.could_give)},
        advice=f"{one.why}{mind}",
    )


_SETTINGS = ("swap_tolerance", "swap_law", "grower_name", "grower_town")


def settings_plan(desk: Desk, then: Callable[[], object]) -> FormPlan:
    """Asks for tolerance, rules and whose seed it is; `then` is done once they are set."""
    settings = desk.tin(create=True).settings()

    def save(values: Values) -> str:
        reader = FieldReader(values, desk.today)
        wanted = {name: reader.text(name) for name in _SETTINGS}
        for name, text in wanted.items():
            try:
                parse_setting(name, text)
            except BadDataError:
                reader.fault(name, f"It takes {CHOICES[name].accepts}.")
        reader.finish()
        desk.change(lambda tin: set_settings(tin, wanted, "Say how you swap"))
        then()
        return "How you swap is set. u takes it back."

    return FormPlan(
        title="How you swap",
        fields=[
            Field(
                "swap_tolerance",
                "Tolerance",
                "Portions by which giving and getting may differ; 0: everyone gets what they give.",
            ),
            Field("swap_law", "Rules", "Whose cautions are told with seed.",
                  ("eu", "gb", "us", "other")),
            Field("grower_name", "Your name", "On sharing labels and in proposals."),
            Field("grower_town", "Your town", "On sharing labels."),
        ],
        save=save,
        initial={name: str(getattr(settings, name)) for name in _SETTINGS},
        draft_key="how you swap",
        advice=f"Your list says name and town only if you write them there. {LAW}",
    )  # fmt: skip


def taken_words(taken: Taken) -> str:
    """What was taken from what the plans miss into the wants."""
    if not (taken.added or taken.changed):
        return "All that your plans miss is wanted already."
    parts = [f"{counted(len(taken.added), 'want')} added"] if taken.added else []
    parts += [f"{len(taken.changed)} raised"] if taken.changed else []
    return f"From what your plans miss: {', '.join(parts)}. u takes it back."


def nothing_missing(tin: Tin) -> str:
    """Why nothing is taken from what the plans miss, and where one plans."""
    from seedbox.tui.sowings_tab import where_to_describe

    settings = tin.settings()
    if not settings.last_spring_frost:
        return f"What is missing depends on your frosts, not said yet. {where_to_describe()}"
    if not tin.plans():
        return f"Nothing is planned yet, so nothing is missing. {where_to_describe()}"
    return "Your plans miss nothing."
