// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/drawing/cardrawing.h"

#include <QHash>
#include <QTransform>

#include <future>
#include <utility>

namespace ramplight {

namespace {

using Shapes = QHash<QString, std::shared_ptr<const CarShape>>;

/// The outlines of all cars, read on a thread of its own from the first call on.
const std::shared_future<Shapes>& plainShapes()
{
    static const std::shared_future<Shapes> reading = std::async(std::launch::async, [] {
        Shapes shapes;
        for (const QString& name : carShapeNames())
            if (auto read = carShape(name))
                shapes.insert(name, std::make_shared<const CarShape>(std::move(*read)));
        return shapes;
    });
    return reading;
}

/// The program's own outlines, each read once: a card that is used again for another car changes
/// its shape, and reading one takes longer than drawing it. GUI thread; null when there is none.
std::shared_ptr<const CarShape> sharedShape(const QString& name, bool opened)
{
    if (auto plain = plainShapes().get().value(name); plain && !opened)
        return plain;
    static QHash<std::pair<QString, bool>, std::shared_ptr<const CarShape>> others;
    const std::pair key(name, opened);
    auto at = others.find(key);
    if (at == others.end()) {
        auto read = carShape(name);
        if (!read)
            return nullptr;
        at = others.insert(
            key, std::make_shared<const CarShape>(opened ? laidOpen(*read) : std::move(*read)));
    }
    return *at;
}

} // namespace

CarDrawing::CarDrawing(QQuickItem* parent)
    : Picture(parent)
{
}

void CarDrawing::readAhead()
{
    plainShapes();
}

void CarDrawing::setShape(const QString& shape)
{
    if (m_shape == shape)
        return;
    m_shape = shape;
    m_outline.reset();
    emit shapeChanged();
    pictureChanged();
}

void CarDrawing::setMarks(const QVariantMap& marks)
{
    if (m_marks == marks)
        return;
    m_marks = marks;
    emit marksChanged();
    pictureChanged();
}

void CarDrawing::setExtras(bool extras)
{
    if (m_extras == extras)
        return;
    m_extras = extras;
    emit lookChanged();
    pictureChanged();
}

void CarDrawing::setOpened(bool opened)
{
    if (m_opened == opened)
        return;
    m_opened = opened;
    m_outline.reset();
    emit shapeChanged();
    pictureChanged();
}

void CarDrawing::setAbsent(const QStringList& places)
{
    if (m_absent == places)
        return;
    m_absent = places;
    emit lookChanged();
    pictureChanged();
}

void CarDrawing::setAmong(const QStringList& places)
{
    if (m_among == places)
        return;
    m_among = places;
    emit lookChanged();
}

void CarDrawing::setLineWidth(double width)
{
    if (qFuzzyCompare(m_look.lineWidth, width))
        return;
    m_look.lineWidth = width;
    emit lookChanged();
    pictureChanged();
}

void CarDrawing::setColour(QColor& member, const QColor& colour)
{
    if (member == colour)
        return;
    member = colour;
    emit lookChanged();
    pictureChanged();
}

double CarDrawing::aspect() const
{
    const CarShape* shape = outline();
    return shape ? shape->frame.width() / shape->frame.height() : 0.5;
}

QString CarDrawing::placeAt(double x, double y, double reach) const
{
    const CarShape* shape = outline();
    if (!shape)
        return {};
    const QTransform to = carTransform(*shape, QRectF(0, 0, width(), height()), m_extras);
    if (qFuzzyIsNull(to.m11()))
        return {};
    const QString place = ramplight::placeAt(*shape, to.inverted().map(QPointF(x, y)),
                                             reach / to.m11(), m_extras, m_among);
    return m_absent.contains(place) ? QString() : place;
}

QPointF CarDrawing::centreOf(const QString& place) const
{
    const CarShape* shape = outline();
    const CarRegion* region = shape ? shape->find(place) : nullptr;
    if (!region)
        return {-1, -1};
    const QTransform to = carTransform(*shape, QRectF(0, 0, width(), height()), m_extras);
    return to.map(region->path.boundingRect().center());
}

QPointF CarDrawing::spotOf(const QString& place) const
{
    const CarShape* shape = outline();
    const CarRegion* region = shape ? shape->find(place) : nullptr;
    if (!region || (region->extra && !m_extras))
        return {-1, -1};
    // Looked for once: it takes longer than drawing the place.
    static QHash<std::pair<const CarShape*, QString>, QPointF> spots;
    const std::pair key(shape, place);
    auto at = spots.find(key);
    if (at == spots.end())
        at = spots.insert(key, spotFor(*shape, place).middle);
    return carTransform(*shape, QRectF(0, 0, width(), height()), m_extras).map(*at);
}

QRectF CarDrawing::boxOf(const QString& place) const
{
    const CarShape* shape = outline();
    const CarRegion* region = shape ? shape->find(place) : nullptr;
    if (!region || (region->extra && !m_extras))
        return {};
    return carTransform(*shape, QRectF(0, 0, width(), height()), m_extras)
        .mapRect(region->path.boundingRect());
}

QStringList CarDrawing::places() const
{
    const CarShape* shape = outline();
    return shape ? shape->places() : QStringList();
}

QString CarDrawing::pictureKey() const
{
    QString key = QStringLiteral("car/%1/%2/%3/%4/%5")
                      .arg(m_shape)
                      .arg(m_extras)
                      .arg(m_look.lineWidth)
                      .arg(m_opened)
                      .arg(m_absent.join(u','));
    for (const QColor& colour : {m_look.line, m_look.seam, m_look.body, m_look.glass, m_look.filled,
                                 m_look.hollow, m_look.stipple})
        key += colour.name(QColor::HexArgb);
    // The map is sorted by place, so equal marks give equal keys.
    for (auto mark = m_marks.cbegin(); mark != m_marks.cend(); ++mark)
        key += u'/' + mark.key() + QString::number(mark.value().toInt());
    return key;
}

void CarDrawing::paint(QPainter& painter, const QSizeF& size) const
{
    if (const Painting here = painting())
        here(painter, size);
}

Picture::Painting CarDrawing::painting() const
{
    if (outline() == nullptr)
        return {};
    QHash<QString, OutlineMark> marks;
    for (auto mark = m_marks.cbegin(); mark != m_marks.cend(); ++mark)
        marks.insert(mark.key(), static_cast<OutlineMark>(mark.value().toInt()));
    return [shape = m_outline, absent = m_absent, marks = std::move(marks), look = m_look,
            extras = m_extras](QPainter& painter, const QSizeF& size) {
        if (absent.isEmpty()) {
            paintCar(painter, *shape, marks, look, QRectF(QPointF(), size), extras);
            return;
        }
        CarShape shown = *shape;
        std::erase_if(shown.regions,
                      [&](const CarRegion& region) { return absent.contains(region.place); });
        paintCar(painter, shown, marks, look, QRectF(QPointF(), size), extras);
    };
}

const CarShape* CarDrawing::outline() const
{
    if (!m_outline)
        m_outline = sharedShape(m_shape, m_opened);
    return m_outline.get();
}

} // namespace ramplight
