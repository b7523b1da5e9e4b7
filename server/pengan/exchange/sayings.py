"""What the reading of a book says: faults that stop the import, notices that do not, the words of a place."""

from __future__ import annotations

from pengan.engine.message import saying, saying_plural

# The book as a whole.
NOT_THERE = saying("book.not_there", "There is no file or folder {path}.")
NOT_A_BOOK = saying("book.not_a_book", "{path} is neither an Excel book (.xlsx) nor a folder of CSV files.")
OLD_BOOK = saying(
    "book.old", "{path} is a book of the old kind (.xls). Open it and save it as an Excel workbook (.xlsx)."
)
OTHER_BOOK = saying("book.other", "{path} is a book of another kind. Open it and save it as an Excel workbook (.xlsx).")
LOCKED_BOOK = saying("book.locked", "{path} is protected by a password. Save a copy without a password.")
DAMAGED_BOOK = saying("book.damaged", "{path} cannot be read: the file is damaged or not finished.")
LARGE_FILE = saying("book.large_file", "{path} is larger than {limit_mb} MB.")
LARGE_UNPACKED = saying(
    "book.large_unpacked",
    "{path} unpacks to more than {limit_mb} MB. A sheet may have {row_count} rows; delete what is not needed, "
    "blank but coloured rows too.",
)
UNSAFE_BOOK = saying("book.unsafe", "{path} holds a part that no spreadsheet program writes, and was not opened.")
NO_SHEETS = saying("book.no_sheets", "No sheet was recognised. Sheets are known by their names: {names}.")
NO_CSV = saying("book.no_csv", "The folder {path} holds no CSV file.")
MANY_SHEETS = saying("book.many_sheets", "{path} has more than {limit_count} sheets.")
NOT_TEXT = saying("book.not_text", "This file is not text in UTF-8 or Windows-1252.")
NOT_CSV = saying("book.not_csv", "This file is not a table: {reason}.")

# A sheet.
TWO_SHEETS = saying("book.two_sheets", "The sheets {first} and {second} are both for {table}.")
UNKNOWN_SHEET = saying("book.unknown_sheet", "This sheet was not recognised and not read.")
HIDDEN_SHEET = saying("book.hidden_sheet", "This sheet is hidden and was not read.")
NO_HEADINGS = saying(
    "book.no_headings", "No row of headings was found in the first {row_count} rows. Expected some of: {names}."
)
TOO_MANY_ROWS = saying("book.too_many_rows", "The sheet has more than {row_count} rows. Nothing below was read.")
TOO_MANY_COLUMNS = saying("book.too_many_columns", "The row has more than {column_count} columns.")
BLANK_BELOW = saying("book.blank_below", "After {row_count} blank rows the sheet was taken to end here.")
MERGED = saying("book.merged", "The merged cells {range} were read as one value in each of their rows.")

# A column.
UNKNOWN_COLUMN = saying("book.unknown_column", "The column “{heading}” was not recognised and not read.")
NO_HEADING = saying("book.no_heading", "The column has cells but no heading, and was not read.")
TWO_COLUMNS = saying("book.two_columns", "The columns “{first}” and “{second}” both mean {field}.")
UNCLEAR_COLUMN = saying("book.unclear_column", "The column “{heading}” could mean more than one of: {names}.")
MISSING_COLUMN = saying("book.missing_column", "The sheet lacks the column {field}.")
NO_UNIT = saying("book.no_unit", "Neither the heading nor the cell names a unit. Write a heading such as “{example}”.")
WRONG_UNIT = saying("book.wrong_unit", "“{unit}” is not a unit for {field}. Write a heading such as “{example}”.")

# A cell.
FORMULA = saying("book.formula", "The cell holds a formula. Copy it and paste it as values.")
ERROR_CELL = saying("book.error_cell", "The cell holds the error {typed}.")
NOT_A_NUMBER = saying("book.not_a_number", "“{typed}” is not a number.")
NOT_WHOLE = saying("book.not_whole", "{typed} is not a whole number.")
UNKNOWN_UNIT = saying("book.unknown_unit", "“{unit}” in “{typed}” is not a unit for {field}.")
NOT_A_DURATION = saying("book.not_a_duration", "“{typed}” is not a time span. Write minutes, or h:mm:ss.")
UNCLEAR_DURATION = saying(
    "book.unclear_duration",
    "“{typed}” could be hours and minutes or minutes and seconds. Write h:mm:ss, or name h:mm or mm:ss in the heading.",
)
NOT_A_CLOCK = saying("book.not_a_clock", "“{typed}” is not a time of day, sunrise or sunset.")
NOT_A_DATE = saying("book.not_a_date", "“{typed}” is not a date. Write it as {example}.")
UNCLEAR_DATE = saying("book.unclear_date", "“{typed}” could be two different dates. Write it as {example}.")
NOT_WEEKDAYS = saying("book.not_weekdays", "“{typed}” is not a list of weekdays. Write it as {example}.")
UNCLEAR_WEEKDAY = saying("book.unclear_weekday", "“{part}” in “{typed}” could be more than one weekday.")
UNKNOWN_CHOICE = saying("book.unknown_choice", "“{typed}” is none of: {names}.")
UNCLEAR_CHOICE = saying("book.unclear_choice", "“{typed}” could mean more than one of: {names}.")
UNKNOWN_REFERENCE = saying("book.unknown_reference", "“{typed}” is not on the sheet {sheet}.")
UNCLEAR_REFERENCE = saying("book.unclear_reference", "“{typed}” stands for more than one row of {sheet}: rows {rows}.")
DATE_IN_TEXT = saying(
    "book.date_in_text",
    "The cell holds a date, {typed}. Spreadsheet programs make dates of numbers such as 3-2: "
    "format the column as text and type it again.",
)
DAY_INCLUDED = saying("book.day_included", "“{typed}” names no time of day and was read as the end of that day.")
THOUSANDS = saying("book.thousands", "“{typed}” was read as {number}.")
TWICE = saying("book.twice", "The rows {first} and {second} have the same id, {id}.")

# Where a remark stands, and what became of the book.
AT_SHEET = saying("book.at_sheet", "Sheet {sheet}")
AT_ROW = saying("book.at_row", "Sheet {sheet}, row {row}")
AT_ROW_WITHOUT = saying("book.at_row_without", "Sheet {sheet}, row {row}, no column {heading}")
AT_COLUMN = saying("book.at_column", "Sheet {sheet}, column {column}")
AT_HEADING = saying("book.at_heading", "Sheet {sheet}, column {column} ({heading})")
AT_CELL = saying("book.at_cell", "Sheet {sheet}, row {row}, column {column}")
AT_HEADING_CELL = saying("book.at_heading_cell", "Sheet {sheet}, row {row}, column {column} ({heading})")
REMARK = saying("book.remark", "{place}: {text}")
FAULTS_FOUND = saying_plural(
    "book.faults_found",
    "The book has {fault_count} fault. Nothing was imported.",
    "The book has {fault_count} faults. Nothing was imported.",
    count="fault_count",
)
NOTICES_FOUND = saying_plural(
    "book.notices_found", "{notice_count} thing to know:", "{notice_count} things to know:", count="notice_count"
)
MORE = saying_plural("book.more", "… and {more_count} more.", "… and {more_count} more.", count="more_count")
WOULD_IMPORT = saying("book.would_import", "The book has no faults: {tables}. Nothing was written (dry run).")
IMPORTED = saying("book.imported", "Imported {tables} into {path}.")
TABLE_COUNT = saying("book.table_count", "{table}: {record_count}")
