"""Dividing a batch into portions and containers, from the scale's reading or from what it should weigh."""

from __future__ import annotations

from ladleworth.divide.codes import PortionCode, check_letter, code_of, read_code
from ladleworth.divide.containers import Filled, Fit, ToFill, choose
from ladleworth.divide.dividing import divide
from ladleworth.divide.heaps import Heap, Known
from ladleworth.divide.labels import Content, Label
from ladleworth.divide.layers import Layer
from ladleworth.divide.making import PartMade, parts_made
from ladleworth.divide.measures import Measure, nearest_scoop, nearest_spoon
from ladleworth.divide.phases import Phases
from ladleworth.divide.question import Dealt, Divided, DivideQuestion, Portion, SizeShare
from ladleworth.divide.readings import Reading, standing
from ladleworth.divide.rooms import Filling
from ladleworth.divide.shares import deal_mass, deal_pieces

__all__ = [
    "Content",
    "Dealt",
    "DivideQuestion",
    "Divided",
    "Filled",
    "Filling",
    "Fit",
    "Heap",
    "Known",
    "Label",
    "Layer",
    "Measure",
    "PartMade",
    "Phases",
    "Portion",
    "PortionCode",
    "Reading",
    "SizeShare",
    "ToFill",
    "check_letter",
    "choose",
    "code_of",
    "deal_mass",
    "deal_pieces",
    "divide",
    "nearest_scoop",
    "nearest_spoon",
    "parts_made",
    "read_code",
    "standing",
]
