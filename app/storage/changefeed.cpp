// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/changefeed.h"

#include "domain/siteevents.h"
#include "log/log.h"
#include "storage/entry.h"

#include <QSqlDriver>
#include <QSqlError>

namespace ramplight {

ChangeFeed::ChangeFeed(SqlLedger& ledger, std::chrono::milliseconds interval)
    : m_ledger(ledger)
{
    m_timer.setInterval(interval);
    connect(&m_timer, &QTimer::timeout, this, &ChangeFeed::poll);
}

ChangeFeed::~ChangeFeed()
{
    m_ledger.onAppended({});
}

tl::expected<void, StoreError> ChangeFeed::start()
{
    {
        auto rows = m_ledger.connection().run(
            "SELECT coalesce(max(position), 0) FROM ledger WHERE site = ?",
            {m_ledger.siteId().text});
        if (!rows)
            return tl::unexpected(storeError(rows.error()));
        if (rows->next())
            m_position = rows->number(0);
    }
    m_ledger.onAppended([this] { look(); });
    const auto now = m_ledger.connection().writesOfOthers();
    if (!now)
        return tl::unexpected(storeError(now.error()));
    if (*now) {
        m_writesOfOthers = **now;
        m_timer.start();
        return {};
    }
    QSqlDriver* driver = m_ledger.connection().database().driver();
    connect(driver, &QSqlDriver::notification, this,
            [this](const QString&, QSqlDriver::NotificationSource source, const QVariant& site) {
                // Our own appends were looked at when they were made.
                if (source != QSqlDriver::SelfSource && site.toString() == m_ledger.siteId().text)
                    look();
            });
    const auto watched = m_ledger.connection().watch();
    if (!driver->subscribeToNotification(QString::fromLatin1(changeChannel)))
        return tl::unexpected(
            storeError(m_ledger.connection().dialect().classify(driver->lastError())));
    return {};
}

void ChangeFeed::poll()
{
    const auto now = m_ledger.connection().writesOfOthers();
    if (!now) {
        log::warn(QStringLiteral("change feed: %1").arg(now.error().text));
        return;
    }
    if (!*now || **now == m_writesOfOthers)
        return;
    m_writesOfOthers = **now;
    look();
}

void ChangeFeed::look()
{
    QStringList cars;
    bool site = false;
    bool rules = false;
    {
        auto rows = m_ledger.connection().run("SELECT position, stream, type FROM ledger"
                                              " WHERE site = ? AND position > ? ORDER BY position",
                                              {m_ledger.siteId().text, m_position});
        if (!rows) {
            log::warn(QStringLiteral("change feed: %1").arg(rows.error().text));
            return;
        }
        while (rows->next()) {
            m_position = rows->number(0);
            const QString stream = rows->text(1);
            if (const CarId car = carOfStream(stream); !car.isEmpty()) {
                if (!cars.contains(car.text))
                    cars.append(car.text);
            } else if (stream == siteStream()) {
                const QString type = rows->text(2);
                site = true;
                rules = rules || type == QLatin1StringView(SiteSetUp::type) ||
                        type == QLatin1StringView(HouseRulesSet::type);
            }
        }
    }
    if (site)
        emit siteChanged();
    if (rules)
        emit changed({});
    else if (!cars.isEmpty())
        emit changed(cars);
}

} // namespace ramplight
