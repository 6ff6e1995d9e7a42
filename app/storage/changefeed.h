// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/sqlledger.h"

#include <QObject>
#include <QStringList>
#include <QTimer>

#include <chrono>

namespace ramplight {

/// Says what changed in the ledger, whoever changed it: this program at once, another one on the
/// same SQLite file within the interval, one on the same server when the server tells. Lives on the
/// ledger's thread, which must run an event loop; the ledger outlives it.
class ChangeFeed : public QObject
{
    Q_OBJECT

public:
    explicit ChangeFeed(SqlLedger& ledger, std::chrono::milliseconds interval = defaultInterval);
    ~ChangeFeed() override;

    /// From now on. Error: Unavailable.
    [[nodiscard]] tl::expected<void, StoreError> start();

    static constexpr std::chrono::milliseconds defaultInterval{250};

signals:
    /// Ids of the cars that changed; an empty list means all of them (the house rules changed).
    void changed(const QStringList& cars);
    /// People, bays or rules.
    void siteChanged();

private:
    void poll();
    void look();

    SqlLedger& m_ledger;
    QTimer m_timer;
    qint64 m_writesOfOthers = 0;
    qint64 m_position = 0;
};

} // namespace ramplight
