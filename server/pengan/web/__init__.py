"""The server: sites in a database, nights worked out on demand, and the page that shows them."""
