// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/drawing/picture.h"

#include <QColor>

namespace ramplight {

/// The band along a card's edge that tells its state by shape. Colour only repeats it. GUI thread.
class EdgeDrawing : public ramplight::Picture
{
    Q_OBJECT
    QML_ELEMENT
    Q_PROPERTY(int band READ band WRITE setBand NOTIFY bandChanged FINAL)
    Q_PROPERTY(double radius READ radius WRITE setRadius NOTIFY lookChanged FINAL)
    Q_PROPERTY(double lineWidth READ lineWidth WRITE setLineWidth NOTIFY lookChanged FINAL)
    Q_PROPERTY(QColor strong READ strong WRITE setStrong NOTIFY lookChanged FINAL)
    Q_PROPERTY(QColor faint READ faint WRITE setFaint NOTIFY lookChanged FINAL)
    Q_PROPERTY(QColor hazard READ hazard WRITE setHazard NOTIFY lookChanged FINAL)
    Q_PROPERTY(QColor hazardInk READ hazardInk WRITE setHazardInk NOTIFY lookChanged FINAL)

public:
    enum Band {
        Empty = 0,         ///< empty band: waiting
        InHand = 1,        ///< solid band
        Paused = 2,        ///< solid band with a gap in its middle
        AwaitingCheck = 3, ///< double band
        Closed = 4,        ///< a line that thins out
        LeftAsIs = 5,      ///< dotted line
        Blocked = 6,       ///< broken band
        Held = 7,          ///< hazard hatch of ISO 3864
        None = 8,          ///< nothing; a ready card shows its folded corner instead
        FoldedCorner = 9,  ///< the folded corner of a card that is ready for release
    };
    Q_ENUM(Band)

    explicit EdgeDrawing(QQuickItem* parent = nullptr);

    [[nodiscard]] int band() const { return m_band; }
    void setBand(int band);
    [[nodiscard]] double radius() const { return m_radius; }
    void setRadius(double radius) { setNumber(m_radius, radius); }
    [[nodiscard]] double lineWidth() const { return m_lineWidth; }
    void setLineWidth(double width) { setNumber(m_lineWidth, width); }
    [[nodiscard]] QColor strong() const { return m_strong; }
    void setStrong(const QColor& colour) { setColour(m_strong, colour); }
    [[nodiscard]] QColor faint() const { return m_faint; }
    void setFaint(const QColor& colour) { setColour(m_faint, colour); }
    [[nodiscard]] QColor hazard() const { return m_hazard; }
    void setHazard(const QColor& colour) { setColour(m_hazard, colour); }
    [[nodiscard]] QColor hazardInk() const { return m_hazardInk; }
    void setHazardInk(const QColor& colour) { setColour(m_hazardInk, colour); }

signals:
    void bandChanged();
    void lookChanged();

protected:
    [[nodiscard]] QString pictureKey() const override;
    void paint(QPainter& painter, const QSizeF& size) const override;

private:
    void setNumber(double& member, double value);
    void setColour(QColor& member, const QColor& colour);

    int m_band = None;
    double m_radius = 0;
    double m_lineWidth = 1;
    QColor m_strong;
    QColor m_faint;
    QColor m_hazard;
    QColor m_hazardInk;
};

} // namespace ramplight
