// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "storage/staffseal.h"

#include "log/log.h"
#include "storage/lengthprefixed.h"
#include "storage/sitekeycheck.h"
#include "storage/sitemove.h"

#include <QCryptographicHash>

#include <algorithm>
#include <array>

namespace ramplight {
namespace {

struct SealedTable
{
    const char* name;
    int columns;
    const char* read; ///< its value is the site
};

constexpr std::array sealedTables{
    SealedTable{"person_name", 2,
                "SELECT person, name FROM person_name WHERE site = ? ORDER BY person"},
    SealedTable{"credential", 2,
                "SELECT person, pin_hash FROM credential WHERE site = ? ORDER BY person"},
    SealedTable{"badge", 2, "SELECT person, code FROM badge WHERE site = ? ORDER BY person"},
    SealedTable{"pin_failure", 4,
                "SELECT person, number, kind, at FROM pin_failure WHERE site = ?"
                " ORDER BY person, number"},
    // But the seal itself.
    SealedTable{"setting", 2,
                "SELECT name, value FROM setting WHERE site = ? AND name <> 'staff-seal'"
                " ORDER BY name"},
};

struct Numbers
{
    qint64 kept = 0;
    qint64 inHeads = 0;
    [[nodiscard]] bool isEarlier() const { return kept < inHeads; }
    [[nodiscard]] qint64 highest() const { return std::max(kept, inHeads); }
};

tl::expected<Numbers, SqlFault> lastNumbers(Connection& connection, const SiteId& site)
{
    const auto kept = staffNumber(connection, site);
    const auto heads = lastHeads(connection, site);
    if (!kept || !heads)
        return tl::unexpected(kept ? heads.error() : kept.error());
    return Numbers{*kept, *heads ? (*heads)->staffNumber : 0};
}

} // namespace

tl::expected<qint64, SqlFault> staffNumber(Connection& connection, const SiteId& site)
{
    auto rows = connection.run("SELECT value FROM setting WHERE site = ?"
                               " AND name = 'staff-seal-number'",
                               {site.text});
    if (!rows)
        return tl::unexpected(rows.error());
    return rows->next() ? rows->text(0).toLongLong() : 0;
}

tl::expected<QString, SqlFault> staffSeal(Connection& connection, const SiteId& site,
                                          const HeadKeeper& keeper)
{
    LengthPrefixed fields("ramplight-staff-1");
    fields.add(site.text);
    for (const SealedTable& table : sealedTables) {
        auto rows = connection.run(table.read, {site.text});
        if (!rows)
            return tl::unexpected(rows.error());
        LengthPrefixed values(table.name);
        qint64 count = 0;
        for (; rows->next(); ++count)
            for (int i = 0; i < table.columns; ++i)
                values.add(rows->text(i));
        fields.add(count).add(values.bytes());
    }
    if (keeper.canSeal())
        return QStringLiteral("key:") + QString::fromLatin1(keeper.digest(fields.bytes()).toHex());
    return QStringLiteral("plain:") +
           QString::fromLatin1(
               QCryptographicHash::hash(fields.bytes(), QCryptographicHash::Sha256).toHex());
}

tl::expected<void, SqlFault> sealStaff(Connection& connection, const SiteId& site,
                                       const HeadKeeper& keeper, bool wasWhole)
{
    const auto current = isCurrent(connection, site, keeper);
    if (!current)
        return tl::unexpected(current.error());
    if (!*current)
        return tl::unexpected(SqlFault{SqlFault::Kind::KeyRenewed, wrongKeys(keeper).words});
    if (auto here = checkIsHere(connection, site); !here)
        return here;
    if (!wasWhole)
        return {};
    const auto last = lastNumbers(connection, site);
    if (!last)
        return tl::unexpected(last.error());
    if (auto counted = connection.run("INSERT INTO setting (site, name, value)"
                                      " VALUES (?, 'staff-seal-number', ?)"
                                      " ON CONFLICT (site, name) DO UPDATE SET value ="
                                      " excluded.value",
                                      {site.text, QString::number(last->highest() + 1)});
        !counted)
        return tl::unexpected(counted.error());
    const auto seal = staffSeal(connection, site, keeper);
    if (!seal)
        return tl::unexpected(seal.error());
    if (auto kept = connection.run("INSERT INTO setting (site, name, value)"
                                   " VALUES (?, 'staff-seal', ?) ON CONFLICT (site, name)"
                                   " DO UPDATE SET value = excluded.value",
                                   {site.text, *seal});
        !kept)
        return tl::unexpected(kept.error());
    return {};
}

tl::expected<bool, SqlFault> wasStaffSealed(Connection& connection, const SiteId& site)
{
    const auto kept = keptStaffSeal(connection, site);
    if (!kept || !kept->isEmpty())
        return kept ? tl::expected<bool, SqlFault>(true) : tl::unexpected(kept.error());
    // What can be deleted beside the seal tells only as long as it is there: the ledger stays.
    const auto heads = lastHeads(connection, site);
    if (!heads || (*heads && (*heads)->staffSealed))
        return heads ? tl::expected<bool, SqlFault>(true) : tl::unexpected(heads.error());
    // Programs that note this version sealed what they wrote with it.
    static constexpr int sealedSince = 3;
    auto rows = connection.run("SELECT value FROM setting WHERE site = ?"
                               " AND name = 'read-tables-version'",
                               {site.text});
    if (!rows)
        return tl::unexpected(rows.error());
    if (rows->next())
        return rows->text(0).toInt() >= sealedSince;
    // Every program notes it before there is anybody: who takes both away hides that there was one.
    auto people = connection.run("SELECT count(*) FROM person_name WHERE site = ?", {site.text});
    if (!people)
        return tl::unexpected(people.error());
    return people->next() && people->number(0) > 0;
}

tl::expected<bool, SqlFault> lostStaffSeal(Connection& connection, const SiteId& site)
{
    const auto kept = keptStaffSeal(connection, site);
    if (!kept || !kept->isEmpty())
        return kept ? tl::expected<bool, SqlFault>(false) : tl::unexpected(kept.error());
    return wasStaffSealed(connection, site);
}

tl::expected<bool, SqlFault> maySealStaffAgain(Connection& connection, const SiteId& site,
                                               const HeadKeeper& keeper)
{
    const auto lost = lostStaffSeal(connection, site);
    const auto kept = keptStaffSeal(connection, site);
    if (!lost || !kept)
        return tl::unexpected(lost ? kept.error() : lost.error());
    if (kept->isEmpty())
        return !*lost;
    if (needsKey(*kept) && !keeper.canSeal())
        return true; // nobody can tell
    const auto is = staffSeal(connection, site, needsKey(*kept) ? keeper : HeadKeeper{});
    if (!is)
        return tl::unexpected(is.error());
    const auto last = lastNumbers(connection, site);
    if (!last)
        return tl::unexpected(last.error());
    const bool isWhole = *kept == *is && !last->isEarlier();
    if (!isWhole)
        log::error(QStringLiteral("staff tables: they are not what was sealed last, and are not "
                                  "sealed anew"));
    return isWhole;
}

tl::expected<bool, SqlFault> staffFitsItsSeal(Connection& connection, const SiteId& site,
                                              const HeadKeeper& keeper)
{
    const auto kept = keptStaffSeal(connection, site);
    const auto is = staffSeal(connection, site, keeper);
    if (!kept || !is)
        return tl::unexpected(kept ? is.error() : kept.error());
    return !kept->isEmpty() && *kept == *is;
}

tl::expected<void, SqlFault> sealEarlierStaff(Connection& connection, const SiteId& site,
                                              const HeadKeeper& keeper)
{
    auto transaction = Transaction::write(connection, site);
    if (!transaction)
        return tl::unexpected(transaction.error());
    const auto fits = staffFitsItsSeal(connection, site, keeper);
    if (!fits)
        return tl::unexpected(fits.error());
    if (!*fits)
        return {};
    if (auto sealed = sealStaff(connection, site, keeper); !sealed)
        return sealed;
    return transaction->commit();
}

bool staffIsSealed(Connection& connection, const SiteId& site, const HeadKeeper& keeper)
{
    const auto last = lastNumbers(connection, site);
    return staffFitsItsSeal(connection, site, keeper).value_or(false) && last && !last->isEarlier();
}

tl::expected<QString, SqlFault> keptStaffSeal(Connection& connection, const SiteId& site)
{
    auto rows = connection.run("SELECT value FROM setting WHERE site = ? AND name = 'staff-seal'",
                               {site.text});
    if (!rows)
        return tl::unexpected(rows.error());
    return rows->next() ? rows->text(0) : QString();
}

} // namespace ramplight
