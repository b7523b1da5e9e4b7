"""Water need on the server: the work shown, weather stations that report, and balances that move on each noon."""
