"""The demo site's next fourteen nights, from the document to the sheets."""


def show():
    print("todo")
