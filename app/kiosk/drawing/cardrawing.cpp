// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/drawing/cardrawing.h"

#include <QHash>
#include <QTransform>

namespace ramplight {

namespace {

/// The program's own outlines, each read once: a card that is used again for another car changes
/// its shape, and reading one takes longer than drawing it. GUI thread; null when there is none.
std::shared_ptr<const CarShape> sharedShape(const QString& name, bool opened)
{
    static QHash<std::pair<QString, bool>, std::shared_ptr<const CarShape>> shapes;
    const std::pair key(name, opened);
    auto at = shapes.find(key);
    if (at == shapes.end()) {
        auto read = carShape(name);
        if (!read)
            return nullptr;
        at = shapes.insert(
            key, std::make_shared<const CarShape>(opened ? laidOpen(*read) : std::move(*read)));
    }
    return *at;
}

} // namespace

CarDrawing::CarDrawing(QQuickItem* parent)
    : Picture(parent)
{
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
    const CarShape* shape = outline();
    if (!shape)
        return;
    QHash<QString, OutlineMark> marks;
    for (auto mark = m_marks.cbegin(); mark != m_marks.cend(); ++mark)
        marks.insert(mark.key(), static_cast<OutlineMark>(mark.value().toInt()));
    if (m_absent.isEmpty()) {
        paintCar(painter, *shape, marks, m_look, QRectF(QPointF(), size), m_extras);
        return;
    }
    CarShape shown = *shape;
    std::erase_if(shown.regions,
                  [this](const CarRegion& region) { return m_absent.contains(region.place); });
    paintCar(painter, shown, marks, m_look, QRectF(QPointF(), size), m_extras);
}

const CarShape* CarDrawing::outline() const
{
    if (!m_outline)
        m_outline = sharedShape(m_shape, m_opened);
    return m_outline.get();
}

} // namespace ramplight
