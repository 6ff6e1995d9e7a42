// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/carview.h"

#include <QObject>
#include <QtQmlIntegration>

#include <vector>

namespace ramplight {

/// Paint depth of the panel that was touched: three readings or more in micrometres, and what the
/// comparison with the car's other panels says. Recording is WalkRound's. GUI thread.
class PaintPad : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the walk-round")
    /// The place is a metal panel.
    Q_PROPERTY(bool possible READ possible NOTIFY changed FINAL)
    /// "104, 110 µm": what was typed and is not recorded yet; empty.
    Q_PROPERTY(QString typedWords READ typedWords NOTIFY changed FINAL)
    Q_PROPERTY(bool typed READ typed NOTIFY changed FINAL)   ///< at least one reading
    Q_PROPERTY(bool enough READ enough NOTIFY changed FINAL) ///< readings to record
    Q_PROPERTY(int missing READ missing NOTIFY changed FINAL)
    /// What the panel measured as last recorded, and how it lies to the others.
    Q_PROPERTY(QString comparedWords READ comparedWords NOTIFY changed FINAL)
    /// It stands out, and nobody has said yet that it was repaired.
    Q_PROPERTY(bool canConfirm READ canConfirm NOTIFY changed FINAL)

public:
    PaintPad(CarView& car, SiteBook& book, const Catalogue& catalogue, QObject* parent = nullptr);

    [[nodiscard]] bool possible() const;
    [[nodiscard]] QString typedWords() const;
    [[nodiscard]] bool typed() const { return !m_micrometres.empty(); }
    [[nodiscard]] bool enough() const { return missing() == 0; }
    [[nodiscard]] int missing() const;
    [[nodiscard]] QString comparedWords() const { return m_comparedWords; }
    [[nodiscard]] bool canConfirm() const { return m_canConfirm; }
    [[nodiscard]] const std::vector<int>& micrometres() const { return m_micrometres; }

    /// Digits as typed.
    Q_INVOKABLE void take(const QString& text);
    /// Takes the last reading back.
    Q_INVOKABLE void goBack();

    /// Another place was touched: what was half typed is forgotten.
    void begin(const PlaceId& place);
    void rebuild();

signals:
    void changed();

private:
    CarView& m_car;
    SiteBook& m_book;
    const Catalogue& m_catalogue;
    PlaceId m_place;
    std::vector<int> m_micrometres;
    QString m_comparedWords;
    bool m_canConfirm = false;
};

} // namespace ramplight
