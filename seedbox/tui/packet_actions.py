"""What can be done to packets, the same keys on the list and on a packet's page."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from seedbox.errors import SeedboxError
from seedbox.tui.actions import action
from seedbox.tui.labels_queueing import QueuesLabels

if TYPE_CHECKING:
    from seedbox.season.listing import PacketLine
    from seedbox.tui.form import FormPlan


class PacketActions(QueuesLabels):
    """A page with packets on it; `lines_meant` says which ones an action is for."""

    def lines_meant(self) -> list[PacketLine]:
        raise NotImplementedError

    def line_here(self) -> PacketLine | None:
        raise NotImplementedError

    def codes_meant(self) -> list[str]:
        return [line.packet.code for line in self.lines_meant()]

    def _ask(self, plan_of: Callable[[], FormPlan]) -> None:
        try:
            plan = plan_of()
        except SeedboxError as error:
            self.seedbox.complain(error)
        else:
            self.seedbox.ask(plan)

    @action("t", "Take", "Take seed out: sown, given away, or lost.", footer=True)
    def action_take(self) -> None:
        from seedbox.tui import packet_plans

        line = self.line_here()
        if line is not None:
            desk = self.seedbox.desk
            self._ask(lambda: packet_plans.take_plan(desk, line.dossier, name_of(line)))

    @action("w", "Sow", "Sow this packet: cells and seeds are proposed.")
    def action_sow(self) -> None:
        from seedbox.tui.sow_form import ask_to_sow

        line = self.line_here()
        if line is not None:
            ask_to_sow(self.seedbox, line.packet.code)

    @action("r", "Recount", "Say how much is really there now.")
    def action_recount(self) -> None:
        from seedbox.tui import packet_plans

        line = self.line_here()
        if line is not None:
            desk = self.seedbox.desk
            self._ask(lambda: packet_plans.recount_plan(desk, line.dossier, name_of(line)))

    @action("m", "Move", "Move the marked packets, or this one, to another store.")
    def action_move(self) -> None:
        from seedbox.tui import packet_plans

        lines = self.lines_meant()
        if not lines:
            return
        packets = [line.packet for line in lines]
        name = name_of(lines[0]) if len(lines) == 1 else f"{len(lines)} packets"
        self._ask(lambda: packet_plans.move_plan(self.seedbox.desk, packets, name))

    @action("e", "Change", "Change what is known of this packet.")
    def action_edit(self) -> None:
        from seedbox.tui.packet_form import edit_plan

        line = self.line_here()
        if line is not None:
            self._ask(lambda: edit_plan(self.seedbox.desk, line.packet))

    @action("n", "Record a test", "Write down a finished germination test; the forecast learns.")
    def action_record_test(self) -> None:
        from seedbox.tui import packet_plans

        line = self.line_here()
        if line is not None:
            desk = self.seedbox.desk
            self._ask(lambda: packet_plans.test_plan(desk, line.dossier, name_of(line)))

    @action(
        "N", "Start a test", "Start a germination test of this packet; how it is done is shown."
    )
    def action_start_test(self) -> None:
        from seedbox.tui.germination_start import ask_to_start

        line = self.line_here()
        if line is not None:
            ask_to_start(self.seedbox, line)

    @action("x", "Remove", "Strike out a packet that was entered by mistake.")
    def action_remove(self) -> None:
        from seedbox.tin.packets import remove_packet

        line = self.line_here()
        if line is None:
            return
        try:
            self.seedbox.desk.change(lambda tin: remove_packet(tin, line.packet.code))
        except SeedboxError as error:
            self.seedbox.complain(error)
        else:
            self.seedbox.done(f"Removed {name_of(line)}. u brings it back.")

    @action("y", "Copy code", "Copy the packet's code.")
    def action_copy_code(self) -> None:
        from seedbox.tui.copying import copy

        line = self.line_here()
        if line is not None:
            self.say(copy(self.app, line.code))


def name_of(line: PacketLine) -> str:
    """Crop and variety with the code, as sentences name a packet."""
    what = f"{line.crop} {line.packet.variety}".strip()
    return f"{what} ({line.code})"
