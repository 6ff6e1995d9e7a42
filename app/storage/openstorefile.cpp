// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// The house's own file: looked over once it is open, and told to be damaged.
#include "log/log.h"
#include "storage/openstore.h"

#include <chrono>
#include <utility>

namespace ramplight {

namespace {

// The wall is drawn by then.
constexpr std::chrono::milliseconds lookOverAfter{5'000};

} // namespace

void OpenStore::lookOverFileSoon()
{
    if (m_settings.kind == StoreKind::Sqlite)
        QTimer::singleShot(lookOverAfter, this, &OpenStore::lookOverFile);
}

// What nobody reads today may be damaged since yesterday. Through a connection of its own, aside:
// nobody waits for it.
void OpenStore::lookOverFile()
{
    if (!m_server)
        return;
    m_looking.start([this] {
        const auto file = Connection::open(m_settings);
        if (!file)
            return;
        auto rows = (*file)->run("PRAGMA quick_check(1)");
        const bool isWhole = rows && rows->next() && rows->text(0) == QLatin1StringView("ok");
        if (isWhole || (!rows && !(*file)->isDamaged()))
            return;
        log::error(QStringLiteral("the database is damaged: %1")
                       .arg(rows ? rows->text(0) : rows.error().text));
        emit foundDamage({});
    });
}

void OpenStore::rest(const QString& words)
{
    if (m_settings.kind != StoreKind::Sqlite)
        return;
    m_rests = true;
    m_beat.stop();
    m_looking.waitForDone();
    m_workshop.reset();
    m_door.reset();
    m_server.reset();
    m_error = {StoreErrorKind::Unavailable, words};
}

void OpenStore::getUp()
{
    if (std::exchange(m_rests, false) && open())
        tellEverything();
}

void OpenStore::tellDamage(const StoreError* found)
{
    if (m_isDamageTold || m_settings.kind != StoreKind::Sqlite || !m_server)
        return;
    const bool isFound = found != nullptr && found->kind == StoreErrorKind::Damaged;
    if (!isFound && !m_server->ledger().connection().isDamaged())
        return;
    m_isDamageTold = true;
    m_server->ledger().connection().markDamaged();
    const QString words = isFound ? found->words : storeError({SqlFault::Kind::Corrupt, {}}).words;
    log::error(QStringLiteral("the house's file is damaged: %1").arg(words));
    emit damaged(QStringLiteral("%1: %2").arg(m_settings.file, words));
}

} // namespace ramplight
