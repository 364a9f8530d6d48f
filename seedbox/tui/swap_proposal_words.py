"""A proposal as lines and sentences: who gives what to whom, and how it comes out for each."""

from __future__ import annotations

from seedbox.season.swapping.explaining import called, told
from seedbox.season.swapping.list_writing import germination_words
from seedbox.season.swapping.records import Proposal, Transfer
from seedbox.season.swapping.words import named
from seedbox.tui.columns import Column
from seedbox.tui.sowing_words import counted
from seedbox.tui.swap_text_page import law_lines, seed_lines
from seedbox.tui.swap_words import capital
from seedbox.tui.text_lines import Line, paragraph
from seedbox.tui.units import unbroken
from seedbox.tui.virtual_list import Row

FIRST = 0  # my list comes first where it is matched here
TRANSFERS = (
    Column("from", "From", 9, most=22),
    Column("to", "To", 9, most=22),
    Column("crop", "Crop", 12, most=24),
    Column("variety", "Variety", 12, most=30),
    Column("portions", "Portions", 8, right=True),
    Column("worth", "Worth", 5, right=True),
    Column("germination", "Germination", 16, most=40, from_width=100),
)
BALANCES = (
    Column("name", "Person", 14, most=40),
    Column("gives", "Gives", 5, right=True),
    Column("gets", "Gets", 5, right=True),
    Column("worth", "Worth", 6, right=True),
    Column("pairs", "By pairs", 8, right=True),
    Column("better", "Than by pairs", 14),
)


def is_mine(one: Transfer, me: int) -> bool:
    return me in (one.giver, one.receiver)


def mine_first(proposal: Proposal, me: int) -> tuple[Transfer, ...]:
    """What I give, what I get, then all else."""
    return tuple(sorted(proposal.transfers, key=lambda one: (one.giver != me, one.receiver != me)))


def transfer_row(one: Transfer, proposal: Proposal, me: int) -> Row:
    """One line of a proposal."""
    return (
        called(proposal.names, one.giver, me),
        called(proposal.names, one.receiver, me),
        one.offer.crop,
        one.offer.variety,
        str(one.portions),
        f"{one.worth:g}",
        germination_words(one.offer.germination),
    )


def balance_row(proposal: Proposal, at: int, me: int) -> Row:
    """What comes out for one person."""
    one = proposal.balances[at]
    gain = one.worth - one.by_pairs
    return (
        called(proposal.names, at, me),
        str(one.gives),
        str(one.receives),
        f"{one.worth:g}",
        f"{one.by_pairs:g}",
        f"{gain:g} more" if gain > 0 else "the same" if gain == 0 else f"{-gain:g} less",
    )


def summary(proposal: Proposal, me: int) -> str:
    """What comes out for me, and in all, with the bound and the gap."""
    if not proposal.transfers:
        return (
            f"Nothing in these {len(proposal.names)} lists goes together: wants and offers meet by"
            " crop and variety. Want more, offer more, or read more lists."
        )
    mine = proposal.balances[me]
    return (
        f"You give {counted(mine.gives, 'portion')} and get {mine.receives}, worth"
        f" {mine.worth:g} to you ({mine.by_pairs:g} by pairs alone). In all"
        f" {counted(sum(one.portions for one in proposal.transfers), 'portion')}, worth"
        f" {proposal.worth:g} of at most {proposal.bound:g}. Giving and getting differ by"
        f" {proposal.tolerance} at most. Found by {proposal.method}."
    )


def transfer_words(one: Transfer, proposal: Proposal, me: int) -> str:
    """Why this line is there, as told to me, and what seed it is."""
    why = told(one, proposal.names, me)
    grown = capital(germination_words(one.offer.germination))
    mind = f" Mind: {' '.join(one.offer.cautions)}" if one.offer.cautions else ""
    return unbroken(f"{counted(one.portions, 'portion')}: {why} {grown}.{mind}")


def balance_words(proposal: Proposal, at: int, me: int) -> str:
    """How it comes out for one person, in a sentence."""
    one, mine = proposal.balances[at], at == me
    name = "You give" if mine else f"{capital(called(proposal.names, at, me))} gives"
    gets = "get" if mine else "gets"
    return (
        f"{name} {counted(one.gives, 'portion')} and {gets} {one.receives}, worth {one.worth:g}"
        f" to {'you' if mine else 'them'}; exchanges between two alone would be worth"
        f" {one.by_pairs:g}."
    )


def transfer_lines(
    one: Transfer, proposal: Proposal, me: int, *, law: str, width: int
) -> list[Line]:
    """All about a line of a proposal, as told to me."""
    seeds = one.offer.seeds_per_portion
    each = f" of {counted(seeds, 'seed')}" if seeds else ""
    lines = paragraph(named(one.offer.crop, one.offer.variety), width, "bold")
    lines += paragraph(
        f"{counted(one.portions, 'portion')}{each}. {told(one, proposal.names, me)}", width
    )
    return [*lines, *seed_lines(one.offer, width), *law_lines(law, width)]
