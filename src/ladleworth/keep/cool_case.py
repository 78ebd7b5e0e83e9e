"""Reading one case of a neutral question: its body, its stages and their faces (docs/cool-question.md)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ladleworth.dish.tree import Findings, Node, nearest
from ladleworth.errors import BadField
from ladleworth.keep.bodies import FOREVER, Body, Face, Layer, Shape, Stage, through
from ladleworth.keep.cool_material import ReadMaterial, read_material
from ladleworth.keep.cool_numbers import items, number, word
from ladleworth.keep.cool_question import CellStage, Posed
from ladleworth.keep.frozen import FreeFace, FreezingMatter
from ladleworth.keep.surroundings import Case

MOST_STAGES, MOST_LAYERS, MOST_STIRS = 100, 20, 500

BODY_KEYS = {
    "shape": '"slab"',
    "layers": '[{"material": "stew", "thickness_mm": 25}]',
    "material": '"stew"',
    "height_mm": "50",
    "length_mm": "150",
    "width_mm": "100",
    "diameter_mm": "85",
}
LAYER_KEYS = {"material": '"stew"', "thickness_mm": "25", "start_c": "80"}
STAGE_KEYS = {"minutes": "30", "faces": '{"all": {...}}', "stir_every_min": "5"}
FACE_KEYS = {
    "exchange_w_m2k": "8",
    "resistance_m2k_w": "0.12",
    "surroundings_c": "4",
    "still_air": "{...}",
}
AIR_KEYS = {"factor_w": "1.32", "length_m": "0.04", "power": "0.25", "emissivity": "0.9"}
SIZES = {
    Shape.SLAB: ("layers",),
    Shape.BRICK: ("material", "height_mm", "length_mm", "width_mm"),
    Shape.CYLINDER: ("material", "height_mm", "diameter_mm"),
    Shape.LONG_CYLINDER: ("material", "diameter_mm"),
    Shape.SPHERE: ("material", "diameter_mm"),
}
"""What a body of each shape is described by."""


_RawStage = tuple[float, tuple[Face | FreeFace, ...], float | None]


@dataclass(frozen=True, slots=True)
class CaseReader:
    """Reads one case; the other one takes the same path and other ends of the numbers."""

    top: Mapping[str, Node]
    findings: Findings
    case: Case

    def posed(self) -> Posed | None:
        """Read the whole case; None after a fault."""
        materials = self._materials()
        body, freezing = self._body(materials)
        start = self._needed(self.top, (), "start_c", "the temperature at the start", -60, 150)
        stages = self._stages(None if body is None else body.shape)
        if body is None or start is None or not stages or self.findings.faulty:
            return None
        in_cells = freezing is not None or any(self._is_free(stage) for stage in stages)
        try:
            if in_cells:
                return self._in_cells(body, freezing, start, stages)
            plain = tuple(
                Stage(seconds, tuple(face for face in faces if isinstance(face, Face)), stir)
                for seconds, faces, stir in stages
            )
            return Posed(body, start, plain)
        except BadField as bad:
            self.findings.fault((), *_halves(str(bad)))
            return None

    @staticmethod
    def _is_free(stage: _RawStage) -> bool:
        return any(isinstance(face, FreeFace) for face in stage[1])

    def _in_cells(
        self, body: Body, freezing: FreezingMatter | None, start: float, stages: list[_RawStage]
    ) -> Posed | None:
        if body.shape is not Shape.SLAB or len(body.layers) > 1:
            self.findings.fault(
                ("body",),
                "only a slab of one layer can freeze, or have a face in still air",
                "write a slab with one layer, or leave these out",
            )
            return None
        if any(stir is not None for _, _, stir in stages):
            self.findings.fault(
                ("stages",), "food that is followed in cells is stirred", "leave stir_every_min out"
            )
            return None
        matter = freezing or FreezingMatter(body.matter, 1.0, 1.0, -60.0, 0.0, 1.0)
        return Posed(body, start, (), matter, tuple(CellStage(s, faces) for s, faces, _ in stages))

    def _needed(
        self,
        keys: Mapping[str, Node],
        path: tuple[str | int, ...],
        key: str,
        what: str,
        low: float,
        high: float,
    ) -> float | None:
        if key not in keys:
            self.findings.fault((*path, key), f"{what} is missing", f'write "{key}": {low:g} to {high:g}')
            return None
        return number(keys[key], what, self.case, low, high)

    def _materials(self) -> dict[str, ReadMaterial | None]:
        if "materials" not in self.top:
            self.findings.fault(("materials",), "there is no material", 'write "materials": {"stew": {...}}')
            return {}
        node = self.top["materials"]
        if not isinstance(node.data, dict):
            node.fault("the materials are no object", 'write "materials": {"stew": {...}}')
            return {}
        under = {name: Node(value, (*node.path, name), self.findings) for name, value in node.data.items()}
        return {name: read_material(each, self.case) for name, each in under.items()}

    def _material(
        self, keys: Mapping[str, Node], path: tuple[str | int, ...], known: Mapping[str, ReadMaterial | None]
    ) -> ReadMaterial | None:
        if "material" not in keys:
            self.findings.fault(
                (*path, "material"), "the material is missing", 'write "material": "stew", say'
            )
            return None
        name = word(keys["material"], "the material", "stew")
        if name and name not in known:
            near = nearest(name, known)
            told = f"did you mean {near!r}?" if near else f"the materials are: {', '.join(known) or 'none'}"
            keys["material"].fault(f"there is no material {name!r}", told)
        return known.get(name)

    def _body(self, known: Mapping[str, ReadMaterial | None]) -> tuple[Body | None, FreezingMatter | None]:
        if "body" not in self.top:
            self.findings.fault(
                ("body",), "there is no body", 'write "body": {"shape": "slab", "layers": [...]}'
            )
            return None, None
        keys = self.top["body"].keys(BODY_KEYS, "the body")
        shapes = {shape.value: shape for shape in Shape}
        name = word(keys["shape"], "the shape", "slab") if "shape" in keys else ""
        if name not in shapes:
            what = f"there is no shape {name!r}" if name else "the shape is missing"
            self.findings.fault(("body", "shape"), what, f"write one of: {', '.join(shapes)}")
            return None, None
        shape = shapes[name]
        for key in keys.keys() - {"shape", *SIZES[shape]}:
            keys[key].fault(f"a {name} has no {key}", f"write {', '.join(SIZES[shape])}")
        if shape is Shape.SLAB:
            return self._slab(keys, known)
        read = self._material(keys, ("body",), known)
        sizes = {
            key: self._needed(keys, ("body",), key, key.removesuffix("_mm"), 1, 5000)
            for key in SIZES[shape][1:]
        }
        metres = {key: value / 1000 for key, value in sizes.items() if value is not None}
        if read is None or len(metres) < len(sizes):
            return None, None
        depth = metres.pop("height_mm", None) or metres.pop("diameter_mm")
        layers = (Layer(read.matter, depth),)
        return Body(shape, layers, *map(metres.get, ("length_mm", "width_mm", "diameter_mm"))), read.freezing

    def _slab(
        self, keys: Mapping[str, Node], known: Mapping[str, ReadMaterial | None]
    ) -> tuple[Body | None, FreezingMatter | None]:
        if "layers" not in keys:
            self.findings.fault(("body", "layers"), "the layers are missing", f"write {BODY_KEYS['layers']}")
            return None, None
        layers, freezing = [], []
        nodes = items(keys["layers"], "layers", BODY_KEYS["layers"], MOST_LAYERS, least=1)
        for node in nodes:
            found = node.keys(LAYER_KEYS, "a layer")
            read = self._material(found, node.path, known)
            thick = self._needed(found, node.path, "thickness_mm", "the thickness", 0.1, 5000)
            start = number(found["start_c"], "its start", self.case, -60, 150) if "start_c" in found else None
            if read is not None and thick is not None:
                layers.append(Layer(read.matter, thick / 1000, start))
                freezing.append(read.freezing)
        if not nodes or len(layers) < len(nodes):
            return None, None
        return Body(Shape.SLAB, tuple(layers)), next((each for each in freezing if each), None)

    def _stages(self, shape: Shape | None) -> list[_RawStage]:
        if "stages" not in self.top:
            self.findings.fault(
                ("stages",), "there is no stage", 'write "stages": [{"faces": {"all": {...}}}]'
            )
            return []
        read = []
        nodes = items(self.top["stages"], "stages", '[{"minutes": 30, "faces": {...}}]', MOST_STAGES, least=1)
        for node in nodes:
            keys = node.keys(STAGE_KEYS, "a stage")
            last = node is nodes[-1]
            minutes = self._length(keys, node, last=last)
            stir = None
            if "stir_every_min" in keys:
                stir = number(keys["stir_every_min"], "stir_every_min", self.case, 0.1, 10_000)
                if minutes == FOREVER:
                    keys["stir_every_min"].fault("a stage without end is stirred", 'write its "minutes"')
                elif stir and minutes and minutes / stir > MOST_STIRS:
                    keys["stir_every_min"].fault(
                        f"it is stirred more than {MOST_STIRS} times", "write more minutes"
                    )
            faces = self._faces(keys, node, shape) if shape else ()
            if minutes is not None and None not in faces:
                read.append(
                    (minutes * 60, tuple(face for face in faces if face), None if stir is None else stir * 60)
                )
        return read

    def _length(self, keys: Mapping[str, Node], node: Node, *, last: bool) -> float | None:
        if "minutes" in keys:
            return number(keys["minutes"], "the stage's length", self.case, 0.01, 43_200)
        if last:
            return FOREVER
        node.fault("a stage that is not the last has no length", 'write "minutes": 30, say')
        return None

    def _faces(
        self, keys: Mapping[str, Node], node: Node, shape: Shape
    ) -> tuple[Face | FreeFace | None, ...]:
        if "faces" not in keys:
            node.fault(
                "the stage has no faces", 'write "faces": {"all": {"exchange_w_m2k": 8, "surroundings_c": 4}}'
            )
            return (None,)
        known = dict.fromkeys((*shape.faces, "all"), "{...}")
        told = keys["faces"].keys(known, f"the faces of a {shape.value}")
        read = {name: self._face(face) for name, face in told.items()}
        found: list[Face | FreeFace | None] = []
        for name in shape.faces:
            spare = "sides" if name == "ends" and "sides" in read else "all"
            if name not in read and spare not in read:
                keys["faces"].fault(f"the face {name!r} is missing", f'write "{name}" or "all"')
            found.append(read.get(name, read.get(spare)))
        return tuple(found)

    def _face(self, node: Node) -> Face | FreeFace | None:
        keys = node.keys(FACE_KEYS, "a face")
        around = self._needed(keys, node.path, "surroundings_c", "what is around the face", -80, 300)
        if "still_air" in keys:
            return self._still(keys, around)
        exchange = self._needed(keys, node.path, "exchange_w_m2k", "the exchange", 0, 1e6)
        resistance = 0.0
        if "resistance_m2k_w" in keys:
            resistance = number(keys["resistance_m2k_w"], "the resistance", self.case, 0, 1000) or 0.0
        if around is None or exchange is None:
            return None
        return Face(through(exchange, resistance), around)

    def _still(self, keys: Mapping[str, Node], around: float | None) -> FreeFace | None:
        for key in ("exchange_w_m2k", "resistance_m2k_w"):
            if key in keys:
                keys[key].fault(f"still_air stands beside {key}", "write one or the other")
        air = keys["still_air"].keys(AIR_KEYS, "still_air")
        bounds = {"factor_w": (0, 1000), "length_m": (1e-4, 10), "power": (0, 1), "emissivity": (0, 1)}
        path = keys["still_air"].path
        numbers = [self._needed(air, path, key, key, *bounds[key]) for key in AIR_KEYS]
        told = [each for each in numbers if each is not None]
        if around is None or len(told) < len(numbers):
            return None
        return FreeFace(told[0], told[1], told[2], told[3], around)


def _halves(message: str) -> tuple[str, str]:
    what, _, remedy = message.partition("; ")
    return what, remedy or "see to the numbers"
