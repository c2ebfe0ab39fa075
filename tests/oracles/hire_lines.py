"""The scenario's two prices line by line with Python's decimal numbers, each line rounded to the cent, halves away from zero, as an invoice is.

The same sums without rounding are in scenario.py: 11,958.1848 and 26,430.0300. The rounded lines of the first come to a cent more.

Run: python3 tests/oracles/hire_lines.py > tests/oracles/hire_lines.txt
"""

from decimal import ROUND_HALF_UP, Decimal as D
from fractions import Fraction as F


def cents(x):
    x = F(x)
    return (D(x.numerator) / D(x.denominator)).quantize(D("0.01"), ROUND_HALF_UP)


def price(name, hourly, travel_h, setup_h, trucks, truck, permit, pad=0):
    minutes = 5 * 45 + 2 * 60 + 20
    site = F(minutes, 60) + F(setup_h)
    port = site + F(travel_h)
    billed = max(F(-(-port * 4 // 1), 4), 8)
    lines = [("hire", cents(billed * hourly)), ("overtime", cents(max(site - 8, 0) * F(1, 2) * hourly))]
    lines.append(("fuel", cents(F(lines[0][1] + lines[1][1]) * F(7, 100))))
    lines += [("counterweight trucks", cents(trucks * truck)), ("permit", cents(permit)), ("riggers", cents(2 * 92 * site)), ("signal person", cents(84 * site)),
              ("flaggers", cents(2 * 58 * site)), ("mats", cents(8 * 45)), ("road closure", cents(780))]
    if pad:
        lines.append(("pad", cents(pad)))
    lines.append(("contingency", cents(F(sum(a for _, a in lines)) / 10)))
    print(f"{name} site {float(site):.4f} h port to port {float(port):.4f} h billed {float(billed):.2f} h")
    for what, amount in lines:
        print(f"{name} {what} | {amount}")
    print(f"{name} total | {sum(a for _, a in lines)}")


price("S90", 415, F(5, 2), F(5, 2), 2, 460, 390)
price("S200", 720, F(7, 2), F(9, 2), 5, 560, 1450, 2600)
