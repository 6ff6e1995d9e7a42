// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/ports.h"
#include "storage/connection.h"
#include "storage/entrytable.h"
#include "storage/migrator.h"
#include "storage/storesettings.h"

#include <QCache>
#include <QStringList>

#include <tl/expected.hpp>

#include <functional>
#include <memory>

namespace ramplight {

/// TooNew: what an entry that is whole says is not known to this program.
[[nodiscard]] StoreError newerEntry(const QString& what);

/// The site's stream as it stands, and the entry in it that set the house rules.
struct SiteView
{
    SiteState state;
    qint64 rulesSeq = 0;
    QString hash; ///< of the last entry
};

/// What each append rests on beside the site and its cars, once the keys are known to be this
/// program's and the house to be in this database.
struct Basis
{
    qint64 staffNumber = 0; ///< of the seal over the staff
    Standing heads;
};

/// The ledger of one site over Qt SQL. Belongs to the thread that opened it and keeps its
/// connection there; every call blocks while the database works. After an error the ledger can be
/// used on: what failed was rolled back.
class SqlLedger : public Ledger
{
public:
    /// Opens or makes the database and brings it to this program's schema. Errors: Unavailable,
    /// Damaged, TooNew, Moved; in each case the file is left as it was.
    [[nodiscard]] static tl::expected<std::unique_ptr<SqlLedger>, StoreError>
    open(const StoreSettings& settings, HeadKeeper keeper);
    ~SqlLedger() override;

    [[nodiscard]] tl::expected<CarState, StoreError> car(const CarId& id) override;
    [[nodiscard]] tl::expected<std::vector<CarEnvelope>, StoreError>
    history(const CarId& id) override;
    [[nodiscard]] tl::expected<std::vector<SiteEnvelope>, StoreError> siteHistory() override;
    /// Among the cars of the house: one that left gives its number free (WallQuery finds it).
    [[nodiscard]] tl::expected<std::optional<CarId>, StoreError>
    carByStockNumber(const QString& stockNumber) override;
    [[nodiscard]] tl::expected<const SiteState*, StoreError> currentSite() override;
    [[nodiscard]] tl::expected<SiteAndCar, StoreError> siteAndCar(const CarId& id) override;
    [[nodiscard]] tl::expected<bool, StoreError> isKnown(const CommandId& command) override;
    [[nodiscard]] tl::expected<void, StoreError> append(const Append& append) override;
    [[nodiscard]] tl::expected<std::optional<RunningWork>, StoreError>
    runningWork(PersonId person) override;
    [[nodiscard]] tl::expected<std::vector<RunningWork>, StoreError> allRunningWork() override;
    [[nodiscard]] tl::expected<Moment, StoreError> busyUntil(PersonId person) override;
    [[nodiscard]] tl::expected<QString, StoreError> bayTakenBy(BayId bay) override;
    [[nodiscard]] tl::expected<std::set<PersonId>, StoreError> peopleWithPin() override;
    [[nodiscard]] tl::expected<Moment, StoreError> nextWorkAfter(PersonId person,
                                                                 Moment after) override;

    /// Where a car's stream stands, for the fingerprint on its record.
    [[nodiscard]] tl::expected<Head, StoreError> head(const CarId& id);
    /// As it was behind an earlier entry; without a hash where there is none of that number.
    [[nodiscard]] tl::expected<Head, StoreError> headAt(const CarId& id, qint64 seq);
    [[nodiscard]] const SiteId& siteId() const { return m_site; }
    [[nodiscard]] MigrationOutcome opening() const { return m_opening; }
    /// For the other tables of this database; same thread.
    [[nodiscard]] Connection& connection() { return *m_connection; }
    [[nodiscard]] const HeadKeeper& keeper() const { return m_keeper; }

    /// The site without people's names.
    [[nodiscard]] tl::expected<SiteView, StoreError> siteView();
    /// It is a kiosk's copy of its server's, which has no heads to look for.
    void setCopy() { m_isCopy = true; }
    /// Called after each append became durable, on this thread.
    void onAppended(std::function<void()> told) { m_told = std::move(told); }
    /// Nothing remembered is used any more; the next read asks the database.
    void forget();
    /// How many cars' states are in memory: those in prep, and one that is not.
    [[nodiscard]] qsizetype remembered() const { return m_cars.size() + (m_gone ? 1 : 0); }

private:
    /// How often the database was written to, for comparing only.
    struct Written
    {
        qint64 byOthers = 0;
        quint64 here = 0;
        friend bool operator==(const Written&, const Written&) = default;
    };
    struct CachedCar
    {
        CarState state;
        QString hash;
        /// Its last entry is known to be under heads of the house.
        bool isSealed = false;
        /// Since then nothing was written that the state would not have; null: nobody knows.
        std::optional<Written> at;
    };

    SqlLedger(std::unique_ptr<Connection> connection, HeadKeeper keeper, MigrationOutcome opening);
    [[nodiscard]] tl::expected<void, StoreError> findSite(const StoreSettings& settings);
    /// now: as it was found just before, where it was.
    [[nodiscard]] tl::expected<const CarState*, StoreError>
    load(const CarId& id, const std::optional<Written>& now = std::nullopt);
    [[nodiscard]] tl::expected<const SiteView*, StoreError> loadSite();
    [[nodiscard]] tl::expected<std::optional<Written>, StoreError> writtenSoFar();
    [[nodiscard]] tl::expected<const SiteState*, StoreError>
    loadNamed(const std::optional<Written>& now);
    /// What an append rests on: the last entries of the site and of its cars. Error: Damaged,
    /// where the programs of this house did not write one of them.
    [[nodiscard]] tl::expected<void, StoreError> checkTips(const Append& append);
    void noteAppended(const Append& append, std::optional<Written> before, Basis basis);
    /// What an append that is durable made of a car.
    void remember(const CarAppend& car, const Append& append, const QString& hash);
    /// The cards on the wall carry words that follow the house rules.
    [[nodiscard]] tl::expected<void, StoreError> rewordWall(const SiteView& site,
                                                            const Append& append);
    [[nodiscard]] tl::expected<RunningWork, StoreError> described(const CarId& car,
                                                                  OperationId operation);
    [[nodiscard]] tl::expected<Moment, StoreError> momentOf(const char* sql,
                                                            const QVariantList& values);

    std::unique_ptr<Connection> m_connection;
    HeadKeeper m_keeper;
    MigrationOutcome m_opening;
    SiteId m_site;
    QCache<QString, CachedCar> m_cars; ///< those in prep that were used last
    std::unique_ptr<CachedCar> m_gone; ///< of the others the one that was asked for last
    SiteView m_siteView;
    qint64 m_siteSealed = 0; ///< entry of the site's stream that is known to be under heads
    bool m_isCopy = false;
    SiteState m_named; ///< the same site with people's names
    /// Since then nothing was written that m_named would not have; null: nobody knows.
    std::optional<Written> m_namedAt;
    Basis m_basis;
    /// Since then nothing was written that m_siteView and m_basis would not have.
    std::optional<Written> m_appendedAt;
    bool m_staffSealed = false; ///< known to have been; it never was not again
    std::function<void()> m_told;
};

/// The channel on which a server tells of appends; the message is the site.
inline constexpr const char* changeChannel = "ramplight";

} // namespace ramplight
