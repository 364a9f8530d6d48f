"""The style sheets: of all pages, and of prompts and forms. Colours come from the themes.

The second is read when a form is first opened, so that the first page need not wait for it.
"""

from __future__ import annotations

SHEET = """
Screen { background: $background; color: $foreground; layers: base cover; }
#title-bar { height: 1; background: $panel; padding: 0; }
#key-bar, KeyBar { height: 1; background: $panel; }
SearchIcon { display: none; }
#notice { height: auto; max-height: 4; display: none; padding: 0 1; background: $surface; }
#notice.-said { display: block; }
#notice.-wrong { color: $error; text-style: bold; }
#too-small { display: none; width: 100%; height: 100%; padding: 1 2; }
.-small > * { display: none; }
.-small > #too-small { display: block; }

VirtualList { height: 1fr; scrollbar-size-vertical: 1; scrollbar-gutter: stable; }
VirtualList > .list--row { background: $background; color: $foreground; }
VirtualList > .list--head { color: $quiet; background: $background; text-style: underline; }
VirtualList > .list--cursor {
    background: $cursor-back; color: $cursor-fore; text-style: bold;
}
VirtualList > .list--cursor-blurred { background: $panel; color: $foreground; }
VirtualList > .list--mark { color: $accent; text-style: bold; }
VirtualList > .list--quiet { color: $quiet; }
VirtualList > .list--good { color: $success; }
VirtualList > .list--thick { color: $thick; }
VirtualList > .list--warn { color: $warning; }
VirtualList > .list--bad { color: $error; }

Input, Input:focus { background: $surface; color: $foreground; }
Input:focus { text-style: none; background-tint: $foreground 8%; }

#filter-bar { height: 1; }
#filter-label { width: auto; padding: 0 0 0 1; color: $quiet; }
#filter-label.-beside { width: 8; color: $quiet; padding: 0 0 0 1; }
#filter, #tick { width: 22; }
#filter-count {
    width: 1fr; text-wrap: nowrap; text-overflow: ellipsis; text-align: right; padding: 0 1 0 1;
    color: $quiet;
}
#summary { height: 1; color: $quiet; }
#detail { height: 2; padding: 0 1; color: $foreground; background: $surface; }
#detail.-tall { height: 4; }

#welcome { height: 1fr; padding: 1 3; }
.page-body { height: 1fr; padding: 0 2; scrollbar-size-vertical: 1; }
.page-body > Static { height: auto; }


"""

SHEET_OVER_PAGE = """
Choice { height: 1; width: 32; background: $surface; padding: 0; }
Choice:focus { background: $cursor-back; color: $cursor-fore; text-style: bold; }
Sheet { align: center middle; background: $background 60%; }
#form {
    width: 100%; max-width: 104; height: auto; max-height: 100%;
    background: $background; border: round $primary; padding: 0 1;
}
#form-title { text-style: bold; color: $primary; height: 1; }
#form-advice { color: $quiet; height: auto; margin: 0 0 1 0; }
#form-hint { color: $quiet; height: 1; margin: 1 0 0 0; }
#form-fields { height: auto; scrollbar-size-vertical: 1; }
#form-problem { color: $error; text-style: bold; height: auto; }
.field-line { height: auto; min-height: 1; }
.field-label { width: 15; color: $foreground; }
.field-line .control { width: 32; height: 1; }
.field-with-names { width: 32; height: auto; }
.field-side { width: 1fr; height: auto; padding: 0 0 0 2; color: $quiet; }
.-faulty .field-side { color: $error; text-style: bold; }
.-faulty .field-label { color: $error; }
Completion { height: auto; width: 32; background: $panel; }
App.-plain Choice:focus { text-style: reverse; }
"""
