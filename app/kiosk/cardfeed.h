// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carcard.h"
#include "kiosk/desk.h"

#include <QObject>

#include <vector>

namespace ramplight {

/// The cards of all open cars as last read; reads again when the desk says that a car changed, and
/// once more when changes came while it read. GUI thread.
class CardFeed : public QObject
{
    Q_OBJECT

public:
    /// The desk outlives the feed.
    explicit CardFeed(Desk& desk, QObject* parent = nullptr);

    void refresh();
    [[nodiscard]] bool isRead() const { return m_read; }
    [[nodiscard]] const std::vector<CarCard>& cards() const { return m_cards; }
    /// Null when it is not among the open cars.
    [[nodiscard]] const CarCard* card(const CarId& car) const;
    /// One of them with this VIN, but not that car; null: none, or no VIN was asked for.
    [[nodiscard]] const CarCard* withVin(const QString& vin, const CarId& butNot = {}) const;

signals:
    void changed();

private:
    Desk& m_desk;
    std::vector<CarCard> m_cards;
    bool m_read = false;
    bool m_reading = false;
    bool m_again = false;
};

} // namespace ramplight
