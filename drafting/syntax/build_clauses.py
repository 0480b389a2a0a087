"""Rules -> nodes: the clauses, and the bows of a leg.

Takes the place of a finished rule and its children, and gives the node. The method that builds a rule carries its
name.
"""

from __future__ import annotations

from typing import Any, Literal

from drafting.syntax import tree
from drafting.syntax.build_amounts import AmountBuilder
from drafting.syntax.marks import Mark
from drafting.text.source import Span


class ClauseBuilder(AmountBuilder):
    """Builds places, choices, shapes and properties."""

    # Places and choices

    def offset_from(
        self,
        span: Span,
        distance: tree.Expression,
        direction: Literal["right of", "left of", "above", "below"],
        origin: tree.Ref,
    ) -> tree.OffsetFrom:
        return tree.OffsetFrom(span, distance, direction, origin)

    def aligned(self, span: Span, how: Literal["level", "plumb"], to: tree.Ref) -> tree.Aligned:
        return tree.Aligned(span, how, to)

    def level_with(self, span: Span, word: str) -> str:
        return "level"

    def plumb_with(self, span: Span, word: str) -> str:
        return "plumb"

    def distance_from(
        self, span: Span, distance: tree.Expression, of: tree.Ref | tree.Stretch
    ) -> tree.DistanceFrom:
        return tree.DistanceFrom(span, distance, of)

    def on_stretch(self, span: Span, what: tree.Stretch, extended: str | None) -> tree.On:
        return tree.On(span, what, extended is not None)

    def on_line(self, span: Span, what: tree.Ref) -> tree.On:
        return tree.On(span, what, False)

    def square_off(self, span: Span, line: tree.Stretch, at: tree.Ref) -> tree.SquareOff:
        return tree.SquareOff(span, line, at)

    def coordinates(
        self, span: Span, x: tree.Expression, y: tree.Expression, origin: tree.Ref | None
    ) -> tree.AtCoordinates:
        return tree.AtCoordinates(span, x, y, origin)

    def at_point(self, span: Span, point: tree.Ref) -> tree.AtPoint:
        return tree.AtPoint(span, point)

    def ray(self, span: Span, angle: tree.Expression, origin: tree.Ref) -> tree.Ray:
        return tree.Ray(span, angle, origin)

    def midway(self, span: Span, what: tree.Ref | tree.Stretch) -> tree.Midway:
        return tree.Midway(span, what)

    def along_stretch(
        self, span: Span, amount: tree.Expression, what: tree.Stretch, extended: str | None
    ) -> tree.Along:
        return tree.Along(span, amount, what, extended is not None)

    def along_way(self, span: Span, amount: tree.Expression, what: tree.Way) -> tree.Along:
        return tree.Along(span, amount, what, False)

    def mirror_of(self, span: Span, of: tree.Ref, over: tree.Stretch | tree.Ref) -> tree.MirrorOf:
        return tree.MirrorOf(span, of, over)

    def touching(self, span: Span, line: tree.Ref, origin: tree.Ref) -> tree.Touching:
        return tree.Touching(span, line, origin)

    def lying(self, span: Span, direction: tree.Direction) -> tree.Lying:
        return tree.Lying(span, direction)

    def direction_word(self, span: Span, word: Literal["level", "plumb"]) -> tree.Direction:
        return tree.Direction(span, word, None)

    def direction_along(self, span: Span, line: tree.Stretch) -> tree.Direction:
        return tree.Direction(span, "along", line)

    def direction_square(self, span: Span, line: tree.Stretch) -> tree.Direction:
        return tree.Direction(span, "square to", line)

    def direction_angle(self, span: Span, angle: tree.Expression) -> tree.Direction:
        return tree.Direction(span, "angle", angle)

    def sheet_side(
        self,
        span: Span,
        how: Literal["right of", "left of", "above", "below"],
        of: tree.Ref | tree.Stretch,
    ) -> tree.Side:
        return tree.Side(span, how, of)

    def place_side(
        self, span: Span, how: Literal["nearest", "farthest from", "inside", "outside"], of: tree.Ref
    ) -> tree.Side:
        return tree.Side(span, how, of)

    # Shapes

    def path(self, span: Span, start: tree.Ref, *legs: tree.Leg) -> tree.PathShape:
        return tree.PathShape(span, start, legs)

    def leg(self, span: Span, to: tree.Ref, *bows: tree.Bow | None) -> tree.Leg:
        return tree.Leg(span, to, tuple(bow for bow in bows if bow))

    def bowed(
        self,
        span: Span,
        toward: Literal["out", "in", "left", "right", "up", "down"],
        with_radius: str | None,
        amount: tree.Expression,
    ) -> tree.Bowed:
        return tree.Bowed(span, toward, with_radius is not None, amount)

    def through(self, span: Span, point: tree.Ref) -> tree.Through:
        return tree.Through(span, point)

    def about(self, span: Span, center: tree.Ref, long: str | None) -> tree.About:
        return tree.About(span, center, long is not None)

    def tangent(self, span: Span) -> tree.Tangent:
        return tree.Tangent(span)

    def following(self, span: Span, line: tree.Ref) -> tree.Following:
        return tree.Following(span, line)

    def smooth(self, span: Span, through: tuple[tree.Ref, ...] | None, *directions: Any) -> tree.Smooth:
        leaving, arriving = directions
        return tree.Smooth(span, through or (), leaving, arriving)

    def box(self, span: Span, width: tree.Expression, height: tree.Expression) -> tree.BoxShape:
        return tree.BoxShape(span, width, height)

    def across(self, span: Span, across: tree.Expression) -> tree.RoundShape:
        return tree.RoundShape(span, across)

    def offset(
        self,
        span: Span,
        distance: tree.Expression,
        side: Literal["inside", "outside", "beside", "round"],
        way: tree.Way,
    ) -> tree.OffsetShape:
        return tree.OffsetShape(span, distance, side, way)

    def band(
        self, span: Span, distance: tree.Expression, side: Literal["inside", "outside"], way: tree.Way
    ) -> tree.BandShape:
        return tree.BandShape(span, distance, side, way)

    def along_shape(self, span: Span, way: tree.Way | tree.Stretch) -> tree.AlongShape:
        return tree.AlongShape(span, way)

    def through_shape(self, span: Span, how: Literal["level", "plumb"], point: tree.Ref) -> tree.ThroughShape:
        return tree.ThroughShape(span, how, point)

    def level_through(self, span: Span, word: str) -> str:
        return "level"

    def plumb_through(self, span: Span, word: str) -> str:
        return "plumb"

    def lines(self, span: Span, start: tree.Ref, end: tree.Ref) -> tree.LinesShape:
        return tree.LinesShape(span, start, end)

    # Properties

    def property(self, span: Span, amount: tree.Expression, word: Any) -> tree.Property:
        return tree.Property(span, amount, word)

    def short(self, span: Span, amount: tree.Expression, at: Literal["start", "end"] | None) -> tree.Short:
        return tree.Short(span, amount, at)

    def every(self, span: Span, amount: tree.Expression) -> tree.Every:
        return tree.Every(span, amount)

    def like_line(
        self, span: Span, how: Literal["as many as", "same holes as", "start at"], line: tree.Ref
    ) -> tree.LikeLine:
        return tree.LikeLine(span, how, line)

    def hole_at(self, span: Span, points: tuple[tree.Ref, ...]) -> tree.HoleAt:
        return tree.HoleAt(span, points)

    def once(self, span: Span) -> tree.Once:
        return tree.Once(span)

    def end_detail(
        self, span: Span, how: Literal["end holes", "corner holes", "down to"], amount: tree.Expression
    ) -> tree.EndDetail:
        return tree.EndDetail(span, how, amount)

    def bent(self, span: Span, angle: tree.Expression, round: tree.Expression) -> tree.Bent:
        return tree.Bent(span, angle, round)

    def steps(self, span: Span, amounts: tuple[tree.Expression, ...]) -> tree.Steps:
        return tree.Steps(span, amounts)

    def corners(self, span: Span, how: Literal["mitred", "cut", "pleated", "flowing"]) -> tree.Corners:
        return tree.Corners(span, how)

    def back_stitch(
        self, span: Span, amount: tree.Expression, at: Literal["start", "end"] | None
    ) -> tree.BackStitch:
        return tree.BackStitch(span, amount, at)

    def pitch_measured(self, span: Span, words: str) -> tree.PitchMeasured:
        return tree.PitchMeasured(span, "across" if words.endswith("across") else "along")

    def stitch_marks(self, span: Span, words: str, size: tree.Expression | None) -> tree.StitchMarks:
        return tree.StitchMarks(span, "slanted" if words.endswith("slanted") else "round", size)

    def wording(self, span: Span, how: Literal["text", "roster"], text: Mark) -> tree.Wording:
        return tree.Wording(span, how, text.text)
