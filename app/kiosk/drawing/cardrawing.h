// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/drawing/picture.h"
#include "outlines/carpainter.h"

#include <QVariantMap>

#include <memory>

namespace ramplight {

/// The outline of a car with its marks, for QML. `marks` maps place ids to Mark numbers; a place
/// that the shape does not have is ignored. GUI thread.
// The base is spelt in full: the type registration of Qt 6.4 does not look into namespaces.
class CarDrawing : public ramplight::Picture
{
    Q_OBJECT
    QML_ELEMENT
    Q_PROPERTY(QString shape READ shape WRITE setShape NOTIFY shapeChanged FINAL)
    Q_PROPERTY(QVariantMap marks READ marks WRITE setMarks NOTIFY marksChanged FINAL)
    Q_PROPERTY(bool extras READ extras WRITE setExtras NOTIFY lookChanged FINAL)
    /// Sides laid open as if unrolled, so that a finger finds doors and sills.
    Q_PROPERTY(bool opened READ opened WRITE setOpened NOTIFY shapeChanged FINAL)
    /// Places that this car does not have: neither drawn nor touched.
    Q_PROPERTY(QStringList absent READ absent WRITE setAbsent NOTIFY lookChanged FINAL)
    /// The places that can be touched; empty: all that are drawn.
    Q_PROPERTY(QStringList among READ among WRITE setAmong NOTIFY lookChanged FINAL)
    Q_PROPERTY(double lineWidth READ lineWidth WRITE setLineWidth NOTIFY lookChanged FINAL)
    Q_PROPERTY(QColor line READ line WRITE setLine NOTIFY lookChanged FINAL)
    Q_PROPERTY(QColor seam READ seam WRITE setSeam NOTIFY lookChanged FINAL)
    Q_PROPERTY(QColor body READ body WRITE setBody NOTIFY lookChanged FINAL)
    Q_PROPERTY(QColor glass READ glass WRITE setGlass NOTIFY lookChanged FINAL)
    Q_PROPERTY(QColor filled READ filled WRITE setFilled NOTIFY lookChanged FINAL)
    Q_PROPERTY(QColor hollow READ hollow WRITE setHollow NOTIFY lookChanged FINAL)
    Q_PROPERTY(QColor stipple READ stipple WRITE setStipple NOTIFY lookChanged FINAL)
    Q_PROPERTY(double aspect READ aspect NOTIFY shapeChanged FINAL)

public:
    enum Mark { Plain = 0, Filled = 1, Hollow = 2, Stippled = 3 };
    Q_ENUM(Mark)

    explicit CarDrawing(QQuickItem* parent = nullptr);
    /// Begins to read the outlines, aside; the first drawing waits for what is left of it.
    static void readAhead();

    [[nodiscard]] QString shape() const { return m_shape; }
    void setShape(const QString& shape);
    [[nodiscard]] QVariantMap marks() const { return m_marks; }
    void setMarks(const QVariantMap& marks);
    [[nodiscard]] bool extras() const { return m_extras; }
    void setExtras(bool extras);
    [[nodiscard]] bool opened() const { return m_opened; }
    void setOpened(bool opened);
    [[nodiscard]] QStringList absent() const { return m_absent; }
    void setAbsent(const QStringList& places);
    [[nodiscard]] QStringList among() const { return m_among; }
    void setAmong(const QStringList& places);
    [[nodiscard]] double lineWidth() const { return m_look.lineWidth; }
    void setLineWidth(double width);
    [[nodiscard]] QColor line() const { return m_look.line; }
    void setLine(const QColor& colour) { setColour(m_look.line, colour); }
    [[nodiscard]] QColor seam() const { return m_look.seam; }
    void setSeam(const QColor& colour) { setColour(m_look.seam, colour); }
    [[nodiscard]] QColor body() const { return m_look.body; }
    void setBody(const QColor& colour) { setColour(m_look.body, colour); }
    [[nodiscard]] QColor glass() const { return m_look.glass; }
    void setGlass(const QColor& colour) { setColour(m_look.glass, colour); }
    [[nodiscard]] QColor filled() const { return m_look.filled; }
    void setFilled(const QColor& colour) { setColour(m_look.filled, colour); }
    [[nodiscard]] QColor hollow() const { return m_look.hollow; }
    void setHollow(const QColor& colour) { setColour(m_look.hollow, colour); }
    [[nodiscard]] QColor stipple() const { return m_look.stipple; }
    void setStipple(const QColor& colour) { setColour(m_look.stipple, colour); }
    /// Width divided by height of the car alone.
    [[nodiscard]] double aspect() const;

    /// The place at a point of this item, or the nearest within `reach` pixels, or "".
    Q_INVOKABLE QString placeAt(double x, double y, double reach) const;
    /// The middle of a place in this item, or (-1, -1) if this shape has no such place.
    Q_INVOKABLE QPointF centreOf(const QString& place) const;
    /// Where a finger has most room within a place, in this item; (-1, -1) if it is not drawn.
    Q_INVOKABLE QPointF spotOf(const QString& place) const;
    /// The rectangle around a place in this item; empty if it is not drawn.
    Q_INVOKABLE QRectF boxOf(const QString& place) const;
    /// Ids of all places that this shape shows.
    Q_INVOKABLE QStringList places() const;

signals:
    void shapeChanged();
    void marksChanged();
    void lookChanged();

protected:
    [[nodiscard]] QString pictureKey() const override;
    void paint(QPainter& painter, const QSizeF& size) const override;
    [[nodiscard]] Painting painting() const override;

private:
    void setColour(QColor& member, const QColor& colour);
    [[nodiscard]] const CarShape* outline() const;

    QString m_shape;
    QVariantMap m_marks;
    CarLook m_look;
    bool m_extras = false;
    bool m_opened = false;
    QStringList m_absent;
    QStringList m_among;
    mutable std::shared_ptr<const CarShape> m_outline; ///< read when first needed
};

} // namespace ramplight
