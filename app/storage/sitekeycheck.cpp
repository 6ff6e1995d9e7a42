// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/sitekeycheck.h"

#include "storage/staffseal.h"

#include <QCoreApplication>

namespace ramplight {

namespace {

/// Which key seals now, where that was ever renewed; else empty.
tl::expected<QString, SqlFault> renewedTo(Connection& connection, const SiteId& site)
{
    auto rows = connection.run("SELECT value FROM setting WHERE site = ? AND name = 'site-key'",
                               {site.text});
    if (!rows)
        return tl::unexpected(rows.error());
    return rows->next() ? rows->text(0) : QString();
}

tl::expected<bool, SqlFault> hasEntries(Connection& connection, const SiteId& site)
{
    auto rows = connection.run("SELECT 1 FROM ledger WHERE site = ? LIMIT 1", {site.text});
    if (!rows)
        return tl::unexpected(rows.error());
    return rows->next();
}

bool isSchemaThere(Connection& connection)
{
    auto rows = connection.run(connection.dialect().versionTable());
    return rows && rows->next() && rows->whole(0) == 1;
}

tl::expected<QStringList, SqlFault> sitesIn(Connection& connection)
{
    QStringList sites;
    if (!isSchemaThere(connection))
        return sites;
    auto rows = connection.run("SELECT site FROM site ORDER BY site");
    if (!rows)
        return tl::unexpected(rows.error());
    while (rows->next())
        sites.append(rows->text(0));
    return sites;
}

} // namespace

tl::expected<std::optional<Heads>, SqlFault> lastHeads(Connection& connection, const SiteId& site)
{
    auto rows = connection.run("SELECT type, version, body FROM ledger WHERE site = ?"
                               " AND stream = ? ORDER BY seq DESC LIMIT 1",
                               {site.text, headsStream()});
    if (!rows)
        return tl::unexpected(rows.error());
    if (!rows->next())
        return std::optional<Heads>();
    Entry entry;
    entry.type = rows->text(0);
    entry.version = rows->whole(1);
    entry.body = rows->text(2).toUtf8();
    // One that cannot be read is for the check of the ledger to tell.
    return headsOf(entry).value_or(Heads{});
}

tl::expected<KeyFit, SqlFault> keyFit(Connection& connection, const SiteId& site,
                                      const HeadKeeper& keeper)
{
    const auto renewed = renewedTo(connection, site);
    if (!renewed)
        return tl::unexpected(renewed.error());
    if (!renewed->isEmpty())
        return *renewed == keeper.keyId ? KeyFit::Fits : KeyFit::Other;
    const auto heads = lastHeads(connection, site);
    if (!heads)
        return tl::unexpected(heads.error());
    if (*heads) {
        // Written without a key, or before the keys were renewed. Whether a seal is whole is asked
        // by the check of the ledger, which names what was changed.
        const bool known = (*heads)->key.isEmpty() || keeper.ageOf((*heads)->key) >= 0;
        return known ? KeyFit::Fits : KeyFit::Other;
    }
    // A kiosk's copy of its server has no heads; that it is not as it was sealed is told at
    // sign-in.
    const auto copied = hasEntries(connection, site);
    if (!copied)
        return tl::unexpected(copied.error());
    if (*copied)
        return KeyFit::Fits;
    const auto seal = keptStaffSeal(connection, site);
    if (!seal)
        return tl::unexpected(seal.error());
    if (seal->isEmpty() || !needsKey(*seal))
        return KeyFit::Nothing;
    return staffIsSealed(connection, site, keeper) ? KeyFit::Fits : KeyFit::Other;
}

tl::expected<KeyFit, StoreError> keyFit(const StoreSettings& settings, const HeadKeeper& keeper)
{
    auto connection = Connection::open(settings);
    if (!connection)
        return tl::unexpected(connection.error());
    const auto sites = sitesIn(**connection);
    if (!sites)
        return tl::unexpected(storeError(sites.error()));
    if (settings.site.isEmpty() && sites->size() > 1)
        return tl::unexpected(StoreError{
            StoreErrorKind::Unavailable,
            QStringLiteral("This database holds several sites. Nothing was changed; name the "
                           "site in the settings: %1.")
                .arg(sites->join(QStringLiteral(", ")))});
    const SiteId site = settings.site.isEmpty() ? SiteId{sites->value(0)} : settings.site;
    if (!sites->contains(site.text))
        return KeyFit::Nothing;
    const auto fit = keyFit(**connection, site, keeper);
    if (!fit)
        return tl::unexpected(storeError(fit.error()));
    return *fit;
}

tl::expected<bool, StoreError> isSiteThere(const StoreSettings& settings)
{
    auto connection = Connection::open(settings);
    if (!connection)
        return tl::unexpected(connection.error());
    const auto sites = sitesIn(**connection);
    if (!sites)
        return tl::unexpected(storeError(sites.error()));
    return settings.site.isEmpty() ? !sites->isEmpty() : sites->contains(settings.site.text);
}

tl::expected<void, StoreError> checkKeys(Connection& connection, const SiteId& site,
                                         const HeadKeeper& keeper)
{
    if (!keeper.canSeal())
        return {};
    const auto fit = keyFit(connection, site, keeper);
    if (!fit)
        return tl::unexpected(storeError(fit.error()));
    if (*fit == KeyFit::Other)
        return tl::unexpected(wrongKeys(keeper));
    return {};
}

tl::expected<SealsNow, SqlFault> sealsNow(Connection& connection, const SiteId& site,
                                          const HeadKeeper& keeper)
{
    // One column: Qt describes each column of an answer, and this is asked for each append.
    auto rows = connection.run("SELECT CASE name WHEN 'site-key' THEN 'k' ELSE 'n' END || value"
                               " FROM setting WHERE site = ?"
                               " AND name IN ('site-key', 'staff-seal-number')",
                               {site.text});
    if (!rows)
        return tl::unexpected(rows.error());
    SealsNow now;
    while (rows->next()) {
        const QString answer = rows->text(0);
        const QString value = answer.mid(1);
        if (answer.startsWith(QLatin1Char('n')))
            now.staffNumber = value.toLongLong();
        else
            now.isCurrent = !keeper.canSeal() || value.isEmpty() || value == keeper.keyId;
    }
    return now;
}

tl::expected<bool, SqlFault> isCurrent(Connection& connection, const SiteId& site,
                                       const HeadKeeper& keeper)
{
    if (!keeper.canSeal())
        return true;
    return sealsNow(connection, site, keeper).map([](const SealsNow& now) {
        return now.isCurrent;
    });
}

tl::expected<void, StoreError> renewKeys(Connection& connection, const SiteId& site,
                                         const HeadKeeper& keeper)
{
    auto transaction = Transaction::write(connection, site);
    if (!transaction)
        return tl::unexpected(storeError(transaction.error()));
    Writer writer(connection);
    writer.run("DELETE FROM credential WHERE site = ?", {site.text});
    writer.run("INSERT INTO setting (site, name, value) VALUES (?, 'site-key', ?)"
               " ON CONFLICT (site, name) DO UPDATE SET value = excluded.value",
               {site.text, keeper.keyId});
    if (!writer.good())
        return tl::unexpected(storeError(writer.fault()));
    if (auto sealed = sealStaff(connection, site, keeper); !sealed)
        return tl::unexpected(storeError(sealed.error()));
    if (auto done = transaction->commit(); !done)
        return tl::unexpected(storeError(done.error()));
    return {};
}

StoreError wrongKeys(const HeadKeeper& keeper)
{
    return {StoreErrorKind::WrongKeys,
            QCoreApplication::translate(
                "ramplight", "The key file %1 is not that of this workshop: it is another site's, "
                             "or the keys were renewed since. Nothing was changed. Copy the file "
                             "site.keys from a kiosk that works to that place (mode 0600; "
                             "\"ramplight key take FILE\" does it) and start again.")
                .arg(keeper.keyFile)};
}

} // namespace ramplight
