// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "evidence/photostore.h"
#include "storage/connection.h"

#include <functional>

namespace ramplight {

/// The folder in which a kiosk keeps photos while its server is away (evidence/standbyshelf.h), and
/// the way from there to the server. A photo leaves it only once the server has it, and brought
/// twice it is there once. No state but the folder: any thread, each with a connection of its own.
class PhotoOutbox
{
public:
    explicit PhotoOutbox(const QString& folder);

    /// Those that wait, in no order that matters; empty where nothing ever did.
    [[nodiscard]] std::vector<PhotoId> waiting() const;
    [[nodiscard]] bool waits(const PhotoId& photo) const;

    /// Sees to it that the server has this photo. True: it has. False: it has not, and there is
    /// nothing whole here; what is damaged here is set aside in the folder "damaged".
    [[nodiscard]] tl::expected<bool, SqlFault> bring(const PhotoId& photo, Connection& server,
                                                     const SiteId& site);
    /// All that wait, until one cannot be taken or goesOn() says no.
    [[nodiscard]] tl::expected<void, SqlFault> bringAll(Connection& server, const SiteId& site,
                                                        const std::function<bool()>& goesOn);

private:
    [[nodiscard]] tl::expected<bool, SqlFault> send(const PhotoId& photo, Connection& server,
                                                    const SiteId& site);
    void setAside(const PhotoId& photo);

    QString m_folder;
    FolderShelf m_shelf;
};

} // namespace ramplight
