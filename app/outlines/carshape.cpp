// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "outlines/carshape.h"

#include <QFile>
#include <QLineF>
#include <QXmlStreamReader>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <limits>
#include <optional>

namespace ramplight {

namespace {

/// Reads numbers and commands one after the other out of path data.
class PathText
{
public:
    explicit PathText(QStringView text)
        : m_text(text)
    {
    }

    [[nodiscard]] bool atEnd()
    {
        skipSpace();
        return m_text.isEmpty();
    }

    [[nodiscard]] QChar command()
    {
        skipSpace();
        if (m_text.isEmpty() || !m_text.front().isLetter())
            return {};
        const QChar letter = m_text.front();
        m_text = m_text.mid(1);
        return letter;
    }

    [[nodiscard]] std::optional<QPointF> point()
    {
        const auto x = number();
        const auto y = number();
        if (!x || !y)
            return std::nullopt;
        return QPointF(*x, *y);
    }

private:
    void skipSpace()
    {
        while (!m_text.isEmpty() && (m_text.front().isSpace() || m_text.front() == u','))
            m_text = m_text.mid(1);
    }

    [[nodiscard]] std::optional<double> number()
    {
        skipSpace();
        qsizetype length = 0;
        while (length < m_text.size() &&
               (m_text[length].isDigit() || m_text[length] == u'.' || m_text[length] == u'-'))
            ++length;
        // Numbers by way of a locale take longer than all the rest of a drawing.
        const QByteArray digits = m_text.first(length).toLatin1();
        m_text = m_text.mid(length);
        double value = 0;
        const auto [end, error] = std::from_chars(digits.begin(), digits.end(), value);
        return error == std::errc{} && end == digits.end() ? std::optional(value) : std::nullopt;
    }

    QStringView m_text;
};

std::optional<QPainterPath> readPath(QStringView data)
{
    PathText text(data);
    QPainterPath path;
    path.setFillRule(Qt::OddEvenFill);
    while (!text.atEnd()) {
        switch (text.command().unicode()) {
        case u'M': {
            const auto to = text.point();
            if (!to)
                return std::nullopt;
            path.moveTo(*to);
            break;
        }
        case u'L': {
            const auto to = text.point();
            if (!to)
                return std::nullopt;
            path.lineTo(*to);
            break;
        }
        case u'C': {
            const auto first = text.point();
            const auto second = text.point();
            const auto to = text.point();
            if (!first || !second || !to)
                return std::nullopt;
            path.cubicTo(*first, *second, *to);
            break;
        }
        case u'Z':
            path.closeSubpath();
            break;
        default:
            return std::nullopt;
        }
    }
    if (path.isEmpty())
        return std::nullopt;
    return path;
}

std::optional<QRectF> readViewBox(QStringView text)
{
    PathText numbers(text);
    const auto origin = numbers.point();
    const auto size = numbers.point();
    if (!origin || !size || size->x() <= 0 || size->y() <= 0)
        return std::nullopt;
    return QRectF(*origin, QSizeF(size->x(), size->y()));
}

std::optional<CarPart> partOf(QStringView word)
{
    struct Row
    {
        QStringView word;
        CarPart part;
    };
    static constexpr std::array rows = {
        Row{u"silhouette", CarPart::Silhouette},
        Row{u"panel", CarPart::Panel},
        Row{u"glass", CarPart::Glass},
        Row{u"lamp", CarPart::Lamp},
        Row{u"wheel", CarPart::Wheel},
        Row{u"tyre", CarPart::Tyre},
        Row{u"bed", CarPart::Bed},
        Row{u"line", CarPart::Line},
    };
    const auto row = std::find_if(rows.begin(), rows.end(),
                                  [word](const Row& each) { return each.word == word; });
    return row == rows.end() ? std::nullopt : std::optional(row->part);
}

double distanceToEdge(const QList<QPolygonF>& rings, QPointF point)
{
    double nearest = std::numeric_limits<double>::max();
    for (const QPolygonF& ring : rings) {
        for (qsizetype i = 1; i < ring.size(); ++i) {
            const QPointF along = ring[i] - ring[i - 1];
            const double length = QPointF::dotProduct(along, along);
            const double share =
                length > 0
                    ? std::clamp(QPointF::dotProduct(point - ring[i - 1], along) / length, 0.0, 1.0)
                    : 0.0;
            nearest = std::min(nearest, QLineF(point, ring[i - 1] + along * share).length());
        }
    }
    return nearest;
}

} // namespace

const CarRegion* CarShape::find(QStringView place) const
{
    const auto found = std::find_if(regions.begin(), regions.end(), [place](const CarRegion& each) {
        return !each.place.isEmpty() && each.place == place;
    });
    return found == regions.end() ? nullptr : &*found;
}

QStringList CarShape::places() const
{
    QStringList all;
    for (const CarRegion& region : regions) {
        if (!region.place.isEmpty())
            all.append(region.place);
    }
    return all;
}

QStringList carShapeNames()
{
    return {QStringLiteral("hatch"), QStringLiteral("saloon"), QStringLiteral("estate"),
            QStringLiteral("suv"),   QStringLiteral("coupe"),  QStringLiteral("convertible"),
            QStringLiteral("mpv"),   QStringLiteral("van"),    QStringLiteral("pickup")};
}

QStringList carSchemeNames()
{
    return {QStringLiteral("wheels"), QStringLiteral("cabin-right"), QStringLiteral("cabin-left"),
            QStringLiteral("systems")};
}

tl::expected<CarShape, CarShapeError> carShape(const QString& name)
{
    if (!carShapeNames().contains(name) && !carSchemeNames().contains(name))
        return tl::unexpected(CarShapeError::NotFound);
    QFile file(QStringLiteral(":/ramplight/outlines/%1.svg").arg(name));
    if (!file.open(QIODevice::ReadOnly))
        return tl::unexpected(CarShapeError::NotFound);
    return readCarShape(file.readAll(), name);
}

tl::expected<CarShape, CarShapeError> readCarShape(const QByteArray& svg, const QString& name)
{
    CarShape shape;
    shape.name = name;
    QXmlStreamReader xml(svg);
    while (xml.readNextStartElement()) {
        const QXmlStreamAttributes attributes = xml.attributes();
        if (xml.name() == u"svg") {
            const auto frame = readViewBox(attributes.value(QLatin1String("viewBox")));
            if (!frame)
                return tl::unexpected(CarShapeError::BadXml);
            shape.frame = *frame;
            shape.extraFrame = *frame;
            continue;
        }
        if (xml.name() != u"path") {
            xml.skipCurrentElement();
            continue;
        }
        CarRegion region;
        region.place = attributes.value(QLatin1String("id")).toString();
        const QString words = attributes.value(QLatin1String("class")).toString();
        const auto parts = words.split(u' ', Qt::SkipEmptyParts);
        const auto part = parts.isEmpty() ? std::nullopt : partOf(parts.front());
        if (!part)
            return tl::unexpected(CarShapeError::BadClass);
        region.part = *part;
        region.detail = parts.contains(QStringLiteral("detail"));
        region.extra = parts.contains(QStringLiteral("extra"));
        const auto path = readPath(attributes.value(QLatin1String("d")));
        if (!path)
            return tl::unexpected(CarShapeError::BadPath);
        region.path = *path;
        if (region.extra)
            shape.extraFrame |= path->boundingRect().adjusted(0, 0, 0, 4);
        shape.regions.push_back(std::move(region));
        xml.skipCurrentElement();
    }
    if (xml.hasError() || shape.frame.isEmpty())
        return tl::unexpected(CarShapeError::BadXml);
    return shape;
}

namespace {

/// From `from` on to the next strip a length is drawn `by` times as long.
struct Strip
{
    double from = 0;
    double by = 1;
};

/// Where a distance of 0 or more comes to lie; up to the first strip it stays where it is.
template <std::size_t N>
double stretched(double distance, const std::array<Strip, N>& strips)
{
    double to = std::min(distance, strips.front().from);
    for (std::size_t at = 0; at < N; ++at) {
        const double end = at + 1 < N ? strips[at + 1].from : std::numeric_limits<double>::max();
        to += std::max(0.0, std::min(distance, end) - strips[at].from) * strips[at].by;
    }
    return to;
}

} // namespace

CarShape laidOpen(const CarShape& shape)
{
    const CarRegion* sill = shape.find(u"sill-left");
    const CarRegion* grille = shape.find(u"grille");
    const CarRegion* tailgate = shape.find(u"tailgate");
    if (sill == nullptr || grille == nullptr || tailgate == nullptr)
        return shape;
    // Glass, doors, sills, wheels: outwards from the middle line, as wide as the body is.
    const double half = -sill->path.boundingRect().left();
    const std::array sideways{Strip{half * 0.56, 1.35}, Strip{half * 0.765, 3.0},
                              Strip{half - 8.5, 2.3}, Strip{half - 1, 1.75}};
    // Bumpers and the rear end: forwards and backwards from the grille's and the lid's edge.
    const double front = grille->path.boundingRect().top();
    const double lid = tailgate->path.boundingRect().bottom();
    const std::array forwards{Strip{0, 2.3}};
    const std::array backwards{Strip{0, 1.6}, Strip{45, 2.3}};
    const auto open = [&](QPointF at) {
        const double x = std::copysign(stretched(std::abs(at.x()), sideways), at.x());
        if (at.y() < front)
            return QPointF(x, front - stretched(front - at.y(), forwards));
        const double rear = lid - 45;
        return QPointF(x, at.y() < rear ? at.y() : rear + stretched(at.y() - rear, backwards));
    };
    const auto openRect = [&open](const QRectF& rect) {
        return QRectF(open(rect.topLeft()), open(rect.bottomRight()));
    };
    CarShape opened = shape;
    opened.frame = openRect(shape.frame);
    opened.extraFrame = openRect(shape.extraFrame);
    for (CarRegion& region : opened.regions)
        for (int at = 0; at < region.path.elementCount(); ++at) {
            const QPointF to = open(region.path.elementAt(at));
            region.path.setElementPositionAt(at, to.x(), to.y());
        }
    return opened;
}

QString placeAt(const CarShape& shape, QPointF point, double reach, bool extras,
                const QStringList& among)
{
    const CarRegion* inside = nullptr;
    const CarRegion* near = nullptr;
    double insideArea = std::numeric_limits<double>::max();
    double nearDistance = reach;
    for (const CarRegion& region : shape.regions) {
        if (region.place.isEmpty() || (region.extra && !extras) ||
            (!among.isEmpty() && !among.contains(region.place)))
            continue;
        const QRectF box = region.path.boundingRect();
        if (region.path.contains(point)) {
            const double area = box.width() * box.height();
            if (area <= insideArea) {
                insideArea = area;
                inside = &region;
            }
        } else if (!inside && box.adjusted(-reach, -reach, reach, reach).contains(point)) {
            const double distance = distanceToEdge(region.path.toSubpathPolygons(), point);
            if (distance <= nearDistance) {
                nearDistance = distance;
                near = &region;
            }
        }
    }
    if (inside)
        return inside->place;
    return near ? near->place : QString();
}

FingerSpot spotFor(const CarShape& shape, QStringView place)
{
    const CarRegion* region = shape.find(place);
    if (region == nullptr)
        return {};
    constexpr int steps = 20;
    const QRectF box = region->path.boundingRect();
    const QList<QPolygonF> rings = region->path.toSubpathPolygons();
    const auto widthAt = [&](QPointF at) {
        return region->path.contains(at) ? 2 * distanceToEdge(rings, at) : 0.0;
    };
    FingerSpot best;
    for (int row = 1; row < steps; ++row)
        for (int column = 1; column < steps; ++column) {
            const QPointF at(box.left() + box.width() * column / steps,
                             box.top() + box.height() * row / steps);
            if (const double width = widthAt(at); width > best.width)
                best = {at, width};
        }
    if (const double width = widthAt(box.center()); width >= 0.75 * best.width)
        best.middle = box.center();
    return best;
}

} // namespace ramplight
