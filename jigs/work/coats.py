"""How a coat of finish is put on, wherever that is."""

COAT = (
    "Wipe off all dust; wet a cloth with the finish and spread it thinly.",
    "Wipe off what has not soaked in before it turns sticky.",
    "Let each coat dry as its maker says; rub with the finest grit between coats.",
    "Spread the rags out to dry outdoors at once.",
)
