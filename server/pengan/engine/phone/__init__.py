"""How the app on a phone asks the engine: text in, text out. See DEVELOPERS.md, "The planner on the phone"."""
