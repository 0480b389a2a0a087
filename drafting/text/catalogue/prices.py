"""Price lists: codes C90 to C100. Their places are rows of the list."""

from __future__ import annotations

from drafting.text.messages import Entry

NO_PRICE_LIST = Entry(
    code="C90",
    says="This is no price list that can be read: {reason}.",
    mend='Write a heading and its price for each thing, such as `[body]`, `price = "95.00"` and `per = "m2"`.',
)
LACKING_COLUMNS = Entry(
    code="C91",
    says="A price list needs the columns `name` and `price` in its first row; it has {columns}.",
    mend="Write `name,price,per,weight,currency` in the first row.",
)
NAMELESS_PRICE = Entry(
    code="C92",
    says="This row does not say what it prices.",
    mend="Write in its column `name` what the pattern calls it, such as `body`.",
)
PRICED_TWICE = Entry(
    code="C93",
    says="`{name}` has a price in line {first} already.",
    mend="Take one of the two away; `tag.{name}` would be the `{name}` of `tag.draft` alone.",
)
TWO_CURRENCIES = Entry(
    code="C94",
    says="This price is in {second}, and the one in line {line} in {first}: they cannot be added.",
    mend="Give all prices in one currency, such as `{first}`.",
)
NO_CURRENCY = Entry(
    code="C95",
    says="The price list does not say what its prices are in.",
    mend='Begin a TOML file with `currency = "EUR"`; in a CSV file give a column `currency`.',
)
UNFIT_PER = Entry(
    code="C96",
    says="The price of `{name}` is said to be per `{per}`, which is no unit that things are sold by.",
    mend="Write one of {known}, or a number of them, such as `100 m`.{meant}",
)
UNFIT_PRICE = Entry(
    code="C97",
    says="`{given}` cannot be read as the price of `{name}`.",
    mend="Write the number alone, 0 or more, with a point or a comma before its cents, such as `1250.00`.",
)
UNFIT_WEIGHT = Entry(
    code="C98",
    says="`{given}` does not say what `{name}` weighs.",
    mend="Write grams of a square metre, such as `1600 g/m2`; `kg/m2`, `g/ft2` and `oz/ft2` will do as well.",
)
STRAY_WORD = Entry(
    code="C99",
    says="`{word}` stands in the price list without being a thing that has a price.",
    mend='Write a heading `[{word}]` and under it `price = "1.20"`.',
)
UNKNOWN_WORD = Entry(
    code="C100",
    says="A price list has no word `{word}`, which is said of `{name}`.",
    mend="Say `price`, `per`, `weight` or `currency`.{meant}",
)
