"""Asking a page in process until it is so far."""

import time


def until(page, reached, seconds=120):
    """The first state of which `reached` holds."""
    state, end = page.get("/api/state").json(), time.monotonic() + seconds
    while not reached(state) and time.monotonic() < end:
        answer = page.get(f"/api/state?after={state['tick']}")
        state = answer.json() if answer.status_code == 200 else state
    assert reached(state)
    return state
