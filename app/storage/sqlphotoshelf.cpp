// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/sqlphotoshelf.h"

#include "log/log.h"
#include "storage/photorows.h"

#include <QDateTime>

#include <algorithm>
#include <optional>
#include <utility>

namespace ramplight {
namespace {

EvidenceError errorOf(const SqlFault& fault, EvidenceError otherwise)
{
    using Kind = SqlFault::Kind;
    switch (fault.kind) {
    case Kind::Full:
        return EvidenceError::DiskFull;
    case Kind::ReadOnly:
        return EvidenceError::NotPermitted;
    case Kind::Locked:
    case Kind::CannotOpen:
    case Kind::Lost:
    case Kind::Unencrypted:
    case Kind::NoRoot:
    case Kind::OtherRoot:
    case Kind::OtherName:
    case Kind::Moved:
    case Kind::Crowded:
    case Kind::Refused:
        return EvidenceError::DatabaseAway;
    default:
        log::error(QStringLiteral("photos in the database: %1").arg(fault.text));
        return otherwise;
    }
}

tl::unexpected<EvidenceError> cannotRead(const SqlFault& fault)
{
    return tl::unexpected(errorOf(fault, EvidenceError::CannotRead));
}

tl::unexpected<EvidenceError> cannotWrite(const SqlFault& fault)
{
    return tl::unexpected(errorOf(fault, EvidenceError::CannotWrite));
}

// A server that hangs costs each call the whole patience: those that wait in the row behind it are
// answered at once for so long.
constexpr std::chrono::milliseconds holdOff{2000};
// A connection that breaks in less was ended by somebody, and the next one may be whole.
constexpr std::chrono::milliseconds slow{1000};
// So much longer a whole picture may take on a slow line.
constexpr std::chrono::milliseconds largePhoto{7000};

qint64 nowMs()
{
    return QDateTime::currentMSecsSinceEpoch();
}

} // namespace

void SqlPhotoShelf::Opened::giveUp(const StoreSettings& settings)
{
    if (settings.patience.count() > 0)
        gaveUp.start();
}

SqlPhotoShelf::SqlPhotoShelf(StoreSettings settings)
    : m_settings(std::move(settings))
{
    m_thread.setObjectName(QStringLiteral("photos"));
    m_worker.moveToThread(&m_thread);
    m_thread.start();
}

SqlPhotoShelf::~SqlPhotoShelf()
{
    // The connection ends on the thread that opened it.
    QMetaObject::invokeMethod(
        &m_worker, [this] { m_opened.connection.reset(); }, Qt::BlockingQueuedConnection);
    m_thread.quit();
    m_thread.wait();
}

tl::expected<void, EvidenceError> SqlPhotoShelf::makeReady(Opened& opened) const
{
    if (!opened.connection || opened.connection->isLost()) {
        if (opened.gaveUp.isValid() && !opened.gaveUp.hasExpired(holdOff.count()))
            return tl::unexpected(EvidenceError::DatabaseAway);
        opened.connection.reset();
        auto connection = Connection::open(m_settings);
        if (!connection) {
            opened.giveUp(m_settings);
            log::error(QStringLiteral("photos in the database: %1").arg(connection.error().words));
            return tl::unexpected(EvidenceError::DatabaseAway);
        }
        opened.connection = std::move(*connection);
    }
    if (!opened.site.isEmpty())
        return {};
    // As the ledger finds it: the one that is named, or the only one.
    if (!m_settings.site.isEmpty()) {
        opened.site = m_settings.site;
        return {};
    }
    const auto view = Transaction::read(*opened.connection);
    if (!view)
        return cannotRead(view.error());
    auto rows = opened.connection->run("SELECT min(site), count(*) FROM site");
    if (!rows)
        return cannotRead(rows.error());
    if (!rows->next() || rows->number(1) != 1)
        return tl::unexpected(EvidenceError::DatabaseAway);
    opened.site = {rows->text(0)};
    return {};
}

template <class F>
auto SqlPhotoShelf::there(F f) const -> std::invoke_result_t<F&, Connection&, const SiteId&>
{
    using Result = std::invoke_result_t<F&, Connection&, const SiteId&>;
    std::optional<Result> result;
    QMetaObject::invokeMethod(
        &m_worker,
        [&] {
            if (const auto ready = makeReady(m_opened); !ready)
                result = tl::unexpected(ready.error());
            else {
                QElapsedTimer took;
                took.start();
                result = f(*m_opened.connection, m_opened.site);
                if (m_opened.connection->isLost() && took.elapsed() > slow.count())
                    m_opened.giveUp(m_settings);
            }
        },
        Qt::BlockingQueuedConnection);
    return std::move(*result);
}

tl::expected<QByteArray, EvidenceError> SqlPhotoShelf::read(const PhotoId& id, PhotoForm form) const
{
    using Result = tl::expected<QByteArray, EvidenceError>;
    return there([&](Connection& connection, const SiteId& site) -> Result {
        const auto view = Transaction::read(connection);
        if (!view)
            return cannotRead(view.error());
        std::optional<HangGuard::Watch> watched;
        if (form == PhotoForm::Full) {
            // Asked first, so that a server that hangs is not given the time of a whole picture.
            const auto there = hasPhotoRows(connection, site, id);
            if (!there)
                return cannotRead(there.error());
            if (!*there)
                return tl::unexpected(EvidenceError::NoSuchPhoto);
            watched.emplace(connection.watch(largePhoto));
        }
        auto rows = connection.run("SELECT bytes FROM photo_bytes"
                                   " WHERE site = ? AND photo = ? AND form = ?",
                                   {site.text, id.text, photoFormText(form)});
        if (!rows)
            return cannotRead(rows.error());
        if (!rows->next())
            return tl::unexpected(EvidenceError::NoSuchPhoto);
        return rows->value(0).toByteArray();
    });
}

tl::expected<void, EvidenceError> SqlPhotoShelf::write(const PhotoId& id,
                                                       const std::vector<ShelvedBytes>& forms)
{
    using Result = tl::expected<void, EvidenceError>;
    if (std::ranges::any_of(
            forms, [](const ShelvedBytes& one) { return one.bytes.size() > mostShelvedBytes; }))
        return tl::unexpected(EvidenceError::TooManyBytes);
    return there([&](Connection& connection, const SiteId& site) -> Result {
        if (auto written = writePhotoRows(connection, site, id, forms); !written)
            return cannotWrite(written.error());
        return {};
    });
}

tl::expected<void, EvidenceError> SqlPhotoShelf::touch(const PhotoId& id)
{
    using Result = tl::expected<void, EvidenceError>;
    return there([&](Connection& connection, const SiteId& site) -> Result {
        auto transaction = Transaction::writeAside(connection);
        if (!transaction)
            return cannotWrite(transaction.error());
        Writer writer(connection);
        const int touched = writer.change("UPDATE photo_bytes SET kept_at = ?"
                                          " WHERE site = ? AND photo = ? AND form = 'full'",
                                          {nowMs(), site.text, id.text});
        if (!writer.good())
            return cannotWrite(writer.fault());
        if (touched != 1)
            return tl::unexpected(EvidenceError::CannotWrite); // taken away in between
        if (auto done = transaction->commit(); !done)
            return cannotWrite(done.error());
        return {};
    });
}

tl::expected<bool, EvidenceError> SqlPhotoShelf::remove(const PhotoId& id, Moment keptBefore)
{
    using Result = tl::expected<bool, EvidenceError>;
    return there([&](Connection& connection, const SiteId& site) -> Result {
        auto transaction = Transaction::writeAside(connection);
        if (!transaction)
            return cannotWrite(transaction.error());
        Writer writer(connection);
        const int full = writer.change("DELETE FROM photo_bytes WHERE site = ? AND photo = ?"
                                       " AND form = 'full' AND kept_at < ?",
                                       {site.text, id.text, keptBefore.ms});
        if (full == 1)
            writer.run("DELETE FROM photo_bytes WHERE site = ? AND photo = ?",
                       {site.text, id.text});
        if (!writer.good())
            return cannotWrite(writer.fault());
        if (auto done = transaction->commit(); !done)
            return cannotWrite(done.error());
        return full == 1;
    });
}

tl::expected<std::vector<PhotoId>, EvidenceError> SqlPhotoShelf::list() const
{
    using Result = tl::expected<std::vector<PhotoId>, EvidenceError>;
    return there([&](Connection& connection, const SiteId& site) -> Result {
        const auto view = Transaction::read(connection);
        if (!view)
            return cannotRead(view.error());
        auto rows = connection.run("SELECT photo FROM photo_bytes WHERE site = ? AND form = 'full'",
                                   {site.text});
        if (!rows)
            return cannotRead(rows.error());
        std::vector<PhotoId> photos;
        while (rows->next())
            photos.push_back({rows->text(0)});
        // Databases sort texts in ways of their own.
        std::sort(photos.begin(), photos.end());
        return photos;
    });
}

} // namespace ramplight
