"""One file a command of `pengan`: thin, over the operations of the other rooms."""
