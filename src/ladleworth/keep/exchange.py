"""Where the exchange of still air comes from: radiation, natural convection, and what a wet surface gives off.

The table of surroundings takes its figures for a fridge from here, less what warm neighbours and shelves leave. A wet open
surface gives off more than is ever reckoned in a forecast: it stops with a lid, a film of fat or a skin.
"""

from __future__ import annotations

import math

from ladleworth.errors import BadField

STEFAN_BOLTZMANN = 5.670374e-8
KELVIN = 273.15
PRESSURE_PA = 101_325.0
GRAVITY = 9.81
AIR_J_KGK = 1006.0
LEWIS = 0.87


def radiated_w_m2k(surface_c: float, around_c: float, emissivity: float) -> float:
    """Give the exchange by radiation, W/(m²·K): e s (Ts² + Ta²)(Ts + Ta), in kelvin.

    Food, plastic and glass have 0.9 to 0.95, bright metal about 0.1 (from memory).
    """
    warm, cold = surface_c + KELVIN, around_c + KELVIN
    return emissivity * STEFAN_BOLTZMANN * (warm**2 + cold**2) * (warm + cold)


def rayleigh(surface_c: float, around_c: float, length_m: float) -> float:
    """Give the Rayleigh number of a plate in air, air as at the mean of both temperatures."""
    film = (surface_c + around_c) / 2 + KELVIN
    conductivity, viscosity, density = _air(film)
    diffusivity = conductivity / (density * AIR_J_KGK)
    return GRAVITY / film * abs(surface_c - around_c) * length_m**3 / (viscosity / density * diffusivity)


def convected_up_w_m2k(surface_c: float, around_c: float, length_m: float) -> float:
    """Give the exchange by natural convection above a warm plate, W/(m²·K); `length_m` is its area over its rim.

    Nu = 0.54 Ra^(1/4) for Ra from 1e4 to 1e7 (McAdams; the range from memory).

    Raises
    ------
    BadField
        If the plate lies outside that range.
    """
    number = rayleigh(surface_c, around_c, length_m)
    if not 1e4 <= number <= 1e7:
        raise BadField(f"the Rayleigh number is {number:.3g}; the relation holds from 1e4 to 1e7")
    conductivity, _, _ = _air((surface_c + around_c) / 2 + KELVIN)
    return 0.54 * math.pow(number, 0.25) * conductivity / length_m


def evaporated_w_m2(surface_c: float, air_c: float, humidity: float, convected_w_m2k: float) -> float:
    """Give the heat that a wet surface loses by giving off vapour, W/m².

    Vapour pressure after Magnus, transfer of mass by that of heat (Lewis number 0.87), heat of vaporisation falling
    with temperature: textbook relations, from memory.
    """
    transfer = convected_w_m2k / (1.2 * 1007 * math.pow(LEWIS, 2 / 3))
    steam = _vapour_kg_m3(surface_c) - humidity * _vapour_kg_m3(air_c)
    return transfer * steam * (2.501e6 - 2361 * surface_c)


def _vapour_kg_m3(degrees_c: float) -> float:
    pressure = 610.94 * math.exp(17.625 * degrees_c / (degrees_c + 243.04))
    return pressure / (461.5 * (degrees_c + KELVIN))


def _air(kelvin: float) -> tuple[float, float, float]:
    """Give conductivity, viscosity (Sutherland, from memory) and density of dry air at sea level."""
    ratio = (kelvin / KELVIN) ** 1.5
    conductivity = 0.0241 * ratio * (KELVIN + 194) / (kelvin + 194)
    viscosity = 1.716e-5 * ratio * (KELVIN + 110.4) / (kelvin + 110.4)
    return conductivity, viscosity, PRESSURE_PA / (287.05 * kelvin)
