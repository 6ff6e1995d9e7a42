// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/ids.h"
#include "outlines/carpainter.h"

#include <QHash>
#include <QLineF>
#include <QPointF>
#include <QRectF>
#include <QString>

#include <variant>
#include <vector>

// What stands on the pages of a record: plain values, laid out once, painted on paper and screen.
// Lengths are hundredths of a millimetre, the origin is a page's upper left corner.
namespace ramplight {

namespace paper {

constexpr double mm = 100.0;
constexpr double pageWidth = 210 * mm;
constexpr double pageHeight = 297 * mm;
constexpr double margin = 16 * mm;
constexpr double column = pageWidth - 2 * margin; ///< what text may fill
constexpr double pageTop = 24 * mm;               ///< of running pages
constexpr double bottom = pageHeight - 21 * mm;   ///< above the footer

enum class Type {
    Title,   ///< the record's name, the stock number
    Heading, ///< of a section
    Lead,    ///< the car's name, the state
    Body,
    Bold,
    Small,
    SmallBold,
};
enum class Tone { Ink, Muted, Accent };

struct Text
{
    QPointF baseline;
    QString text;
    Type type = Type::Body;
    Tone tone = Tone::Ink;
};
struct Rule
{
    QLineF line;
    double width = 0.15 * mm;
    Tone tone = Tone::Muted;
    bool broken = false;
};
struct Box
{
    QRectF box;
    Tone tone = Tone::Ink;
    double width = 0.3 * mm;
    bool broken = false;
    bool folded = false; ///< with the folded corner of a car that is ready
};
/// Diagonal stripes: the car is held.
struct Hatch
{
    QRectF box;
};
struct Photo
{
    QRectF box;
    PhotoId photo;
    QString gone = {}; ///< words in its place: no picture is kept any more
};
struct Car
{
    QRectF box;
    QString shape;
    QHash<QString, OutlineMark> marks;
};
/// A finding's number on the drawing.
struct Badge
{
    QPointF centre;
    QString text;
};
/// From a number to the place that it belongs to, where there is a dot.
struct Leader
{
    QLineF line;
};
/// A little square of the drawing's legend.
struct Swatch
{
    QRectF box;
    OutlineMark mark = OutlineMark::Plain;
};

/// A QR code, its quiet zone within the box.
struct Code
{
    QRectF box;
    QString text;
};
/// Where an entry of the document's outline leads. Nothing is drawn.
struct Anchor
{
    QPointF at;
    QString title;
    int level = 1; ///< 1: a section, 2: within one
};

using Item = std::variant<Text, Rule, Box, Hatch, Photo, Car, Leader, Badge, Swatch, Code, Anchor>;
using Page = std::vector<Item>;

constexpr double badgeRadius = 2.0 * mm;

[[nodiscard]] Item moved(Item item, QPointF by);

} // namespace paper

} // namespace ramplight
