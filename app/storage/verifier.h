// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/knowncatalogues.h"
#include "domain/siteevents.h"
#include "evidence/photovault.h"
#include "storage/entrytable.h"
#include "storage/readtables.h"
#include "storage/sqlledger.h"

#include <tl/expected.hpp>

#include <functional>
#include <map>
#include <set>
#include <vector>

namespace ramplight {

enum class FaultKind {
    Damage,       ///< what lies there is not what was written, or cannot be read
    ReadTables,   ///< the same, of what the ledger can make again
    AgainstRules, ///< it is, and by the rules of this program should never have been written
    Newer         ///< it is, and only a newer program can read it: what follows was not checked
};

/// Something that is not as it should be.
struct LedgerFault
{
    QString where; ///< stream and entry, table and car, or what was checked
    QString words;
    FaultKind kind = FaultKind::Damage;

    /// "car/1, entry 4: ..."
    [[nodiscard]] QString told() const { return QStringLiteral("%1: %2").arg(where, words); }
    friend bool operator==(const LedgerFault&, const LedgerFault&) = default;
};

struct VerifyReport
{
    std::vector<LedgerFault> faults;
    QStringList notChecked; ///< what could not be checked, and why
    QStringList remarks;    ///< photos that nobody needs: nothing is lost with them
    int cars = 0;
    qint64 entries = 0;
    int photos = 0;
    int photosRemoved = 0; ///< under the house's retention, and no car keeps them

    [[nodiscard]] bool isWhole() const { return faults.empty(); }
    /// The first damage, also of read tables; null: it is what was written, all of it.
    [[nodiscard]] const LedgerFault* damage() const;
    /// The first that a newer program wrote; null: none.
    [[nodiscard]] const LedgerFault* newer() const;
};

/// Where a fault lies that the database finds with itself.
[[nodiscard]] QString databaseFaults();
/// Where one lies that its tables, indexes and guards have: they are not the program's.
[[nodiscard]] QString schemaFaults();

/// Goes through the whole ledger of a site and names everything that is wrong: the database's own
/// check, chains, sealed heads, order, command ids, the rules decided again for each car, for the
/// site and across cars, the read tables against a replay, photos. Reads one unchanging view of the
/// database; changes nothing. On the ledger's thread, for as long as it takes.
class Verifier
{
public:
    /// Looks at every photo; given those that a car keeps.
    using PhotoCheck =
        std::function<tl::expected<VaultReport, EvidenceError>(const std::set<PhotoId>& kept)>;

    /// Without a photo check the photos are named as not checked. known: what opened work is held
    /// against beside the catalogues that the house took in. The ledger outlives the verifier.
    explicit Verifier(SqlLedger& ledger, PhotoCheck photoCheck = {}, KnownCatalogues known = {});

    [[nodiscard]] VerifyReport run();

private:
    /// A head that the heads stream names: between which positions its entries must lie.
    struct NamedHead
    {
        QString hash;
        CommandId command;
        qint64 after = 0;
        qint64 before = 0;
    };
    struct SiteAt
    {
        qint64 position = 0;
        SiteState state;
    };

    /// A stretch of work of one person; end 0 while it runs.
    struct Stretch
    {
        qint64 start = 0;
        qint64 end = 0;
        qint64 correctedEnd = 0; ///< by the corrected minutes; its start when there are none
        QString car;
    };

    void fault(const QString& where, const QString& words, FaultKind kind = FaultKind::Damage);
    void againstRules(const QString& where, const QString& words);
    void unread(const Entry& entry, const EventFault& why);
    [[nodiscard]] std::vector<Entry> entriesOf(const QString& stream);
    void checkChain(const std::vector<Entry>& entries);
    void checkHeadsStream();
    void checkAgainstHeads(const QString& stream, const std::vector<Entry>& entries);
    void checkSiteStream();
    void checkSiteRules(const SiteState& before, const std::vector<SiteEnvelope>& group);
    void checkCar(const QString& stream);
    void checkRules(const QString& stream, const CarState& before,
                    const std::vector<CarEnvelope>& group, qint64 position);
    void checkReadTables(const CarState& car);
    void remember(const CarState& car);
    void checkAcrossCars();
    void checkTwins();
    void checkLeftOverRows(const std::set<QString>& cars);
    void checkCommands();
    void checkStaff();
    void checkPhotos();
    [[nodiscard]] const SiteState& siteAt(qint64 position) const;

    SqlLedger& m_ledger;
    PhotoCheck m_photoCheck;
    KnownCatalogues m_known;
    VerifyReport m_report;
    std::map<QString, std::map<qint64, NamedHead>> m_named;
    qint64 m_staffNumber = 0; ///< of the seal over the staff, by the last heads
    std::vector<SiteAt> m_sites;
    std::map<qint64, HouseRules> m_rules; ///< by the entry that set them
    std::set<PhotoId> m_photos;           ///< that a car keeps
    std::set<PhotoId> m_removed;          ///< that some car kept
    std::map<PersonId, std::vector<Stretch>> m_stretches;
    std::map<BayId, QString> m_bays;           ///< which car stands there
    std::map<QString, QString> m_stockNumbers; ///< which car of the house has it
    std::set<std::pair<QString, QString>>
        m_closedAs;                                 ///< a car that was entered twice, and as which
    std::set<std::pair<QString, QString>> m_joined; ///< by what stands on the one that goes on
};

/// Every photo of the vault is read; it outlives the check.
[[nodiscard]] Verifier::PhotoCheck photoCheck(const PhotoVault& photos);

/// The rows of one car, out of its stream; inside the caller's transaction. Rows that it had and
/// has no more stay. Errors: Damaged, Unavailable; what the writer met is in the writer.
[[nodiscard]] tl::expected<void, StoreError> rebuildCar(SqlLedger& ledger, Writer& writer,
                                                        const SiteView& site, const CarId& car);

/// Makes the read tables again out of the ledger, in one transaction. Answers the number of cars.
/// Errors: Damaged (the ledger itself is not whole; the tables stay as they were), Unavailable.
[[nodiscard]] tl::expected<int, StoreError> rebuildReadTables(SqlLedger& ledger);

} // namespace ramplight
