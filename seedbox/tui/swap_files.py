"""Forms for files of the swap: lists of others to read, one's own list to write."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from seedbox.errors import UsageError
from seedbox.season.swapping.list_writing import (
    FORMAT,
    HEADER,
    csv_text,
    json_text,
)
from seedbox.season.swapping.records import SwapList
from seedbox.season.written_dates import written
from seedbox.tin.preferences import LONGEST_TEXT, Settings
from seedbox.tui.desk import Desk
from seedbox.tui.field_values import FieldReader
from seedbox.tui.form import Field, FormPlan, FormProblemsError, Values
from seedbox.tui.sowing_words import counted
from seedbox.tui.swap_words import LAW
from seedbox.tui.written_files import FileNames, files_named, refuse_other_file
from seedbox.whole_file import write_whole

LIST_ENDINGS = (".csv", ".json", ".xlsx", ".txt", ".tsv")
MOST_FILES = 200
NO_NOTES, NOTES = "are left out", "go with the list"
_CSV_SIGN = ",".join(HEADER[:3]).encode()
_JSON_SIGN = f'"format": "{FORMAT}"'.encode()


def read_plan(read: Callable[[list[Path]], object]) -> FormPlan:
    """Asks for the files in which others keep their lists."""

    def save(values: Values) -> str:
        paths = _paths(values["files"])
        read(paths)
        return ""

    return FormPlan(
        title="Lists of others",
        fields=[
            Field(
                "files",
                "Files",
                "One or several, parted by ; or a folder with all of them.",
                suggest=FileNames(LIST_ENDINGS),
            )
        ],
        save=save,
        draft_key="swap lists",
        advice="CSV, JSON or XLSX, as w writes it here, or any table with a column crop.",
    )


def _paths(text: str) -> list[Path]:
    """The files that were named; a folder stands for the lists in it."""
    found: list[Path] = []
    problems = []
    for name in files_named(text):
        try:
            path = Path(name).expanduser()
            inside = _inside(path) if path.is_dir() else [path]
        except (OSError, RuntimeError, ValueError):
            problems.append(f"{name} cannot be looked at.")
            continue
        if not inside:
            problems.append(f"No list lies in the folder {name}.")
        problems += [f"There is no file {one}." for one in inside if not one.is_file()]
        found += inside
    if not found and not problems:
        problems = ["Name a file, such as maud.csv."]
    if len(found) > MOST_FILES:
        problems.append(f"{len(found)} files; {MOST_FILES} are the most.")
    if problems:
        raise FormProblemsError({"files": " ".join(problems[:3])})
    return list(dict.fromkeys(one.resolve() for one in found))


def _inside(folder: Path) -> list[Path]:
    lists = (one for one in folder.iterdir() if one.suffix.lower() in LIST_ENDINGS)
    return sorted(one for one in lists if one.is_file() and not one.name.startswith("."))


def write_plan(desk: Desk, made: Callable[..., SwapList | None]) -> FormPlan:
    """Asks for the file of one's own list, whose name it bears, and whether it holds notes.

    `made` makes the list of a name, a town and `notes`.
    """
    settings = desk.tin().settings()

    def save(values: Values) -> str:
        reader = FieldReader(values, desk.today)
        path = reader.path()
        kind = path.suffix.lower()
        if path.name and kind not in (".csv", ".json", ".pdf"):
            reader.fault("file", "End it in .csv for spreadsheets, .json, or .pdf to print.")
        name, town = reader.text("name"), reader.text("town")
        for field, text in (("name", name), ("town", town)):
            if len(text) > LONGEST_TEXT:
                reader.fault(field, f"{LONGEST_TEXT} characters are the most.")
        notes = values["notes"] == NOTES
        if notes and kind == ".pdf":
            reader.fault("notes", "The printed list has no room for notes.")
        reader.finish()
        listed = made(name, town, notes=notes)
        if listed is None:
            raise UsageError("What is spare is being reckoned again: save once more in a moment.")
        remarks = _write(path, kind, listed, settings)
        return f"Wrote {_size(listed)} to {path}.{remarks} {LAW}"

    return FormPlan(
        title="Write your list for the others",
        fields=[
            Field("file", "File", ".csv for spreadsheets, .json for programs, .pdf to print."),
            Field("name", "Your name", "Empty: the list does not say whose it is."),
            Field("town", "Your town", "Empty: the list does not say where you live."),
            Field("notes", "Notes", "Yours on each packet that is offered.", (NO_NOTES, NOTES)),
        ],
        save=save,
        initial={"file": str(Path.cwd() / "swap-list.csv")},
        draft_key="swap list",
        advice="Nothing private is in it: no price, source, store or tag; your name, town and notes"
        f" only if you say so here. {LAW}",
    )


def _write(path: Path, kind: str, listed: SwapList, settings: Settings) -> str:
    """Writes the list; returns what is to be said of it besides."""
    if kind == ".pdf":
        return _print(path, listed, settings)
    csv = kind == ".csv"
    refuse_other_file(path, _CSV_SIGN if csv else _JSON_SIGN)
    data = csv_text(listed).encode("utf-8-sig") if csv else json_text(listed).encode()
    write_whole(path, data)
    return ""


def _print(path: Path, listed: SwapList, settings: Settings) -> str:
    from seedbox.printing.labels import check_target
    from seedbox.printing.measuring import correction_of
    from seedbox.printing.swap_page import SwapRow, WantRow, draw_swap_list
    from seedbox.season.swapping.list_writing import sheet_offer, sheet_title, sheet_want

    check_target(path)
    printed = draw_swap_list(
        path,
        sheet_title(listed),
        [SwapRow(**sheet_offer(offer)) for offer in listed.offers],
        settings.page,
        written(listed.made_on, settings.dates) if listed.made_on else "",
        wants=[WantRow(**sheet_want(wish)) for wish in listed.wishes],
        dpi=settings.label_dpi,
        corrected=correction_of(settings),
    )
    unread = [f"These codes could not be read back: {', '.join(printed.unreadable)}."]
    return "".join(f" {said}" for said in (*printed.warnings, *(unread * bool(printed.unreadable))))


def _size(listed: SwapList) -> str:
    offers, wants = len(listed.offers), len(listed.wishes)
    return f"{counted(offers, 'offer')} and {counted(wants, 'want')}"
