// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/desk.h"
#include "kiosk/listbase.h"

namespace ramplight {

/// A car that was here and is no longer on the wall.
struct FormerRow
{
    QString carId;
    QString stockNumber;
    QString carWords;  ///< "Orrel Tarn 1.2 · QX 104"
    QString leftWords; ///< "released", "withdrawn"

    [[nodiscard]] QString key() const { return carId; }
    friend bool operator==(const FormerRow&, const FormerRow&) = default;
};

/// What a search finds beside the cards of the wall: released and withdrawn cars, the latest first.
/// Roles: FormerRow's names. GUI thread.
class FormerCars : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")

public:
    /// A row of touchable names beside the search, no list to read.
    static constexpr std::size_t most = 6;

    explicit FormerCars(Desk& desk, QObject* parent = nullptr);

    /// A part of a stock number or a registration, from the second character on; empty: no car.
    void look(const QString& text);

private:
    Desk& m_desk;
    QString m_text;
};

} // namespace ramplight
