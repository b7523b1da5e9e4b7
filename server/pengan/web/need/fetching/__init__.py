"""Days ahead from a public weather service, where whoever runs the server has named one. Off unless they have.

A service (`services.py`) says what to ask and reads the answer into steps of time; `asking.py` asks; `days.py` gathers
steps to the site's days; `writing.py` makes them the site's weather, as forecasts; `turns.py` keeps whose turn it is,
for any number of processes; `fetch.py` does all of it for one site. A forecast is a guess: nobody's observation is
ever overwritten by one, and nothing that goes wrong here holds up a night.
"""
