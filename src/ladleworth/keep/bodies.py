"""What cools: a body of food, the faces through which it does, and the stages that it goes through.

Plain records without arithmetic. Lengths are in metres, temperatures in °C, times in seconds.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from ladleworth.errors import BadField

FOREVER = math.inf
"""The length of a last stage that has no end."""


class Shape(Enum):
    """The shapes that are reckoned, with the names of their faces."""

    SLAB = "slab"
    BRICK = "brick"
    CYLINDER = "cylinder"
    LONG_CYLINDER = "long cylinder"
    SPHERE = "sphere"

    @property
    def faces(self) -> tuple[str, ...]:
        """The faces in the order in which a stage holds them."""
        return _FACES[self]


_FACES = {
    Shape.SLAB: ("top", "bottom"),
    Shape.BRICK: ("top", "bottom", "sides", "ends"),
    Shape.CYLINDER: ("top", "bottom", "side"),
    Shape.LONG_CYLINDER: ("side",),
    Shape.SPHERE: ("side",),
}


@dataclass(frozen=True, slots=True)
class Matter:
    """What a body is made of, as heat sees it.

    Parameters
    ----------
    conductivity_w_mk
        How well it passes heat, W/(m·K).
    density_kg_m3
        kg/m³.
    heat_capacity_j_kgk
        What warms 1 kg by 1 K, J/(kg·K).
    """

    conductivity_w_mk: float
    density_kg_m3: float
    heat_capacity_j_kgk: float

    def __post_init__(self) -> None:
        for name in Matter.__slots__:
            value = getattr(self, name)
            if not (math.isfinite(value) and value > 0):
                raise BadField(f"{name} is {value}; write a number above 0")

    @property
    def diffusivity_m2_s(self) -> float:
        """How fast temperatures even out in it, m²/s."""
        return self.conductivity_w_mk / (self.density_kg_m3 * self.heat_capacity_j_kgk)


@dataclass(frozen=True, slots=True)
class Layer:
    """A layer of a slab, from the top down; `start_c` is its temperature at the start (None: the body's)."""

    matter: Matter
    thickness_m: float
    start_c: float | None = None

    def __post_init__(self) -> None:
        _positive("thickness_m", self.thickness_m)


@dataclass(frozen=True, slots=True)
class Body:
    """A body of food.

    Parameters
    ----------
    shape
        One of the shapes.
    layers
        One layer; a slab may have several. The thickness is its depth: of a cylinder the height, of a brick the
        height, of a long cylinder and a sphere the diameter.
    length_m, width_m
        The sides of a brick; `width_m` is between the faces called ends.
    diameter_m
        Of a cylinder.
    """

    shape: Shape
    layers: tuple[Layer, ...]
    length_m: float | None = None
    width_m: float | None = None
    diameter_m: float | None = None

    def __post_init__(self) -> None:
        if not self.layers or (len(self.layers) > 1 and self.shape is not Shape.SLAB):
            raise BadField(
                f"a {self.shape.value} has {len(self.layers)} layers; write 1, more only for a slab"
            )
        for name, shape in (
            ("length_m", Shape.BRICK),
            ("width_m", Shape.BRICK),
            ("diameter_m", Shape.CYLINDER),
        ):
            value = getattr(self, name)
            if (value is None) == (self.shape is shape):
                told = "is missing" if value is None else "does not belong there"
                raise BadField(f"a {self.shape.value}: {name} {told}")
            if value is not None:
                _positive(name, value)

    @property
    def depth_m(self) -> float:
        """All layers together."""
        return sum(layer.thickness_m for layer in self.layers)

    @property
    def matter(self) -> Matter:
        """What the first layer is made of."""
        return self.layers[0].matter


@dataclass(frozen=True, slots=True)
class Face:
    """What one face gives its heat to: so many W/(m²·K), lid and wall counted, at so many °C."""

    exchange_w_m2k: float
    surroundings_c: float

    def __post_init__(self) -> None:
        if not (math.isfinite(self.exchange_w_m2k) and self.exchange_w_m2k >= 0):
            raise BadField(f"exchange_w_m2k is {self.exchange_w_m2k}; write 0 or more")
        if not math.isfinite(self.surroundings_c):
            raise BadField(f"surroundings_c is {self.surroundings_c}; write a temperature")


@dataclass(frozen=True, slots=True)
class Stage:
    """A stretch of time with the same surroundings.

    Parameters
    ----------
    seconds
        How long; `FOREVER` for the last one.
    faces
        In the order of the shape's faces.
    stir_every_s
        The food is mixed each time that so many seconds of this stage have passed; None: never.
    """

    seconds: float
    faces: tuple[Face, ...]
    stir_every_s: float | None = None

    def __post_init__(self) -> None:
        _positive("seconds", self.seconds, endless=True)
        if self.stir_every_s is not None:
            _positive("stir_every_s", self.stir_every_s)


def through(exchange_w_m2k: float, *resistances_m2k_w: float) -> float:
    """Put lid and wall before a face: 1/(1/exchange + resistances), W/(m²·K); 0 stays 0."""
    return 1 / (1 / exchange_w_m2k + sum(resistances_m2k_w)) if exchange_w_m2k else 0.0


def _positive(name: str, value: float, *, endless: bool = False) -> None:
    if not value > 0 or (math.isinf(value) and not endless):
        raise BadField(f"{name} is {value}; write a number above 0")
