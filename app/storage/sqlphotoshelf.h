// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "evidence/photoshelf.h"
#include "storage/connection.h"
#include "storage/storesettings.h"

#include <QElapsedTimer>
#include <QObject>
#include <QThread>

#include <functional>
#include <memory>

namespace ramplight {

/// Photos in the workshop's own database, so that all its kiosks see them. On a connection and a
/// thread of its own: neither a sign-off nor a screen waits for a photo's bytes. Any thread but its
/// own may call; calls wait their turn. The connection is opened by the first call, after the
/// ledger has made the tables, and again after the server was away. With a patience in the settings
/// no call waits longer than twice that for a server, or ten seconds for a whole picture; nor does
/// the end.
class SqlPhotoShelf : public PhotoShelf
{
public:
    explicit SqlPhotoShelf(StoreSettings settings);
    ~SqlPhotoShelf() override;

    [[nodiscard]] tl::expected<QByteArray, EvidenceError> read(const PhotoId& id,
                                                               PhotoForm form) const override;
    [[nodiscard]] tl::expected<void, EvidenceError>
    write(const PhotoId& id, const std::vector<ShelvedBytes>& forms) override;
    [[nodiscard]] tl::expected<void, EvidenceError> touch(const PhotoId& id) override;
    [[nodiscard]] tl::expected<bool, EvidenceError> remove(const PhotoId& id,
                                                           Moment keptBefore) override;
    [[nodiscard]] tl::expected<std::vector<PhotoId>, EvidenceError> list() const override;

private:
    /// What the thread owns.
    struct Opened
    {
        std::unique_ptr<Connection> connection;
        SiteId site;
        QElapsedTimer gaveUp; ///< since a call waited in vain

        /// Only where a patience is set: without one each call is worth its wait.
        void giveUp(const StoreSettings& settings);
    };

    /// f(Connection&, const SiteId&) on the thread, waited for.
    template <class F>
    auto there(F f) const -> std::invoke_result_t<F&, Connection&, const SiteId&>;
    [[nodiscard]] tl::expected<void, EvidenceError> makeReady(Opened& opened) const;

    const StoreSettings m_settings;
    mutable QThread m_thread;
    mutable QObject m_worker; ///< lives on m_thread: what is posted to it runs there
    mutable Opened m_opened;  ///< touched on m_thread only
};

} // namespace ramplight
