"""Output formats, one per file.

An exporter gives ``TITLE``, ``FILE`` (the name it writes in the pack) and
``render(sheet: Sheet) -> bytes``. It only draws: one sheet, one row of bytes.
"""
