// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "desk/workshopdesk.h"

#include "storage/backupnoted.h"

// What the screens ask about the server that several kiosks share.
namespace ramplight {

QFuture<tl::expected<void, QString>> WorkshopDesk::noteRefused(qint64 kept, PersonId by)
{
    return m_store.note(kept, by).then(
        [](const tl::expected<void, StoreError>& noted) -> tl::expected<void, QString> {
            if (!noted)
                return tl::unexpected(noted.error().words);
            return {};
        });
}

QFuture<tl::expected<std::vector<KeptRequest>, QString>> WorkshopDesk::notedRefusals()
{
    return m_store.noted().then([](const tl::expected<std::vector<KeptRequest>, StoreError>& noted)
                                    -> tl::expected<std::vector<KeptRequest>, QString> {
        if (!noted)
            return tl::unexpected(noted.error().words);
        return *noted;
    });
}

Answer<SiteBackup> WorkshopDesk::siteBackup()
{
    using Result = tl::expected<SiteBackup, Failure>;
    return m_store.run([](Workshop&, Store& store) -> Result {
        auto noted = notedBackup(store);
        if (!noted)
            return tl::unexpected<Failure>(noted.error());
        return *noted;
    });
}

} // namespace ramplight
