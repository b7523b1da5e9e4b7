"""The tables' history: one step a file under `versions`, from the first table on."""
