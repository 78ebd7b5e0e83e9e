"""The dish: read from a file, from JSON-LD or from plain text, made ready to plan with, scaled and weighed.

What there is stands in its own module, to be imported from there: `dish` (the records), `written` (a dish as a
person wrote it) and `mapping` (written back), `line` and `read_line` (ingredient lines), `package_total`
(packages of one size in all), `resolve` (foods found, amounts as bought), `bounds` (slips), `scale`, `chain` (bought, edible, cooked), `salt`, `allergens`, `jsonld` and
`plain_text` (from elsewhere).
"""
