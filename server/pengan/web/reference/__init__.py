"""The API's description as a page for people, made from the same OpenAPI document."""
