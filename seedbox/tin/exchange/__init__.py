"""Import and export: tables that people keep elsewhere, and whole tins as plain files.

Import from the modules below; this package loads nothing by itself, so that a listing that only
needs `answers` does not pay for readers of spreadsheets.

- `answers`     what a crop resolver answers (`CropAnswer`)
- `reading`     a file to a `Table` (`read_table`)
- `planning`    a file to an `ImportPlan` (`plan_import`): nothing is changed yet
- `carrying`    a plan into the tin (`carry_out`): one change, one undo
- `rejecting`   rows that did not fit, to a file to mend (`write_rejects`)
- `exporting`   a tin to CSV, JSON or XLSX (`export`)
"""
