"""x"""


def show():
    print("todo")
