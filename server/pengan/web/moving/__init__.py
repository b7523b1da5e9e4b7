"""Everything, or one site with its history, carried from one database into another of either kind."""
