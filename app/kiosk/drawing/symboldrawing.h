// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/drawing/picture.h"

#include <QColor>

namespace ramplight {

/// The few small drawings that say something faster than a word. GUI thread.
class SymbolDrawing : public ramplight::Picture
{
    Q_OBJECT
    QML_ELEMENT
    Q_PROPERTY(int symbol READ symbol WRITE setSymbol NOTIFY lookChanged FINAL)
    Q_PROPERTY(QColor colour READ colour WRITE setColour NOTIFY lookChanged FINAL)
    Q_PROPERTY(QColor ground READ ground WRITE setGround NOTIFY lookChanged FINAL)

public:
    enum Symbol {
        NoSymbol = 0,
        Caution =
            1, ///< general warning sign of ISO 7010 (W001): triangle in `ground`, ink in `colour`
        Camera = 2,
        Back = 3,
        Person = 4,
        Search = 5,
        Erase = 6,
        Shift = 7,
        Tick = 8,
        Cross = 9,
        HideKeys = 10,  ///< keyboard goes down
        HatchMark = 11, ///< a small square of the hazard hatch, beside a safety item
        RingMark = 12,  ///< a ring, beside an ordinary item
    };
    Q_ENUM(Symbol)

    explicit SymbolDrawing(QQuickItem* parent = nullptr);

    [[nodiscard]] int symbol() const { return m_symbol; }
    void setSymbol(int symbol);
    [[nodiscard]] QColor colour() const { return m_colour; }
    void setColour(const QColor& colour);
    [[nodiscard]] QColor ground() const { return m_ground; }
    void setGround(const QColor& colour);

signals:
    void lookChanged();

protected:
    [[nodiscard]] QString pictureKey() const override;
    void paint(QPainter& painter, const QSizeF& size) const override;

private:
    int m_symbol = NoSymbol;
    QColor m_colour;
    QColor m_ground;
};

/// A rounded frame of dashes: a place where something is still to be put. GUI thread.
class DashedFrame : public ramplight::Picture
{
    Q_OBJECT
    QML_ELEMENT
    Q_PROPERTY(QColor colour READ colour WRITE setColour NOTIFY lookChanged FINAL)
    Q_PROPERTY(double radius READ radius WRITE setRadius NOTIFY lookChanged FINAL)
    Q_PROPERTY(double lineWidth READ lineWidth WRITE setLineWidth NOTIFY lookChanged FINAL)

public:
    explicit DashedFrame(QQuickItem* parent = nullptr);

    [[nodiscard]] QColor colour() const { return m_colour; }
    void setColour(const QColor& colour);
    [[nodiscard]] double radius() const { return m_radius; }
    void setRadius(double radius);
    [[nodiscard]] double lineWidth() const { return m_lineWidth; }
    void setLineWidth(double width);

signals:
    void lookChanged();

protected:
    [[nodiscard]] QString pictureKey() const override;
    void paint(QPainter& painter, const QSizeF& size) const override;

private:
    QColor m_colour;
    double m_radius = 0;
    double m_lineWidth = 1;
};

} // namespace ramplight
