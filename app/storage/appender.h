// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "storage/sqlledger.h"

namespace ramplight {

/// Carries one Append into the database, inside the caller's transaction and on its thread:
/// command, entries, heads, names, read tables. Keep for one append only.
class Appender
{
public:
    /// Everything outlives the appender; before is the site as the database has it now.
    Appender(Connection& connection, const SiteId& site, const HeadKeeper& keeper,
             const Append& append, const SiteView& before);

    /// Where a stream stood when it was last looked at: it is not asked for again. Where it went on
    /// since, the database takes no second entry of one number, and that is a Conflict.
    void know(Head head) { m_known.push_back(std::move(head)); }
    /// What the append before left, where nobody wrote since: it is not asked for again.
    void know(const Basis& basis) { m_basis = basis; }
    /// The staff of this site has, or had, a seal; the heads say so from here on.
    void knowStaffSealed() { m_staffSealed = true; }
    /// Errors: Conflict (also when the command was carried out before), Busy, Unavailable, Damaged,
    /// WrongKeys, Moved.
    [[nodiscard]] tl::expected<void, StoreError> write();

    /// Afterwards: the site as it is now.
    [[nodiscard]] const SiteView& siteView() const { return m_after ? *m_after : m_before; }
    [[nodiscard]] bool changesRules() const;
    /// Afterwards: hash of the last entry of a car of the append.
    [[nodiscard]] QString hashOfCar(const CarId& car) const;
    /// Afterwards: for the next append.
    [[nodiscard]] const Basis& basis() const { return *m_basis; }

private:
    [[nodiscard]] qint64 entryCount() const;
    [[nodiscard]] tl::expected<void, StoreError> writeStream(const QString& stream, qint64 afterSeq,
                                                             std::vector<EncodedEvent> events);
    [[nodiscard]] tl::expected<Head, SqlFault> headBefore(const QString& stream,
                                                          qint64 afterSeq) const;
    /// What was decided on still stands: the site, and what people have worked since.
    [[nodiscard]] tl::expected<void, StoreError> checkBasis();
    /// The house and its keys are those of this program, as the database has them now.
    [[nodiscard]] tl::expected<Basis, StoreError> readBasis() const;
    [[nodiscard]] tl::expected<void, StoreError> writeEntries();
    [[nodiscard]] tl::expected<void, StoreError> writeHeads();
    [[nodiscard]] tl::expected<void, StoreError> writeStaff();
    void writeReadTables();
    /// Dated when the command was decided, but not before a moment that is given.
    [[nodiscard]] Entry entryAfter(const Head& head, EncodedEvent event,
                                   Moment notBefore = {}) const;

    Connection& m_connection;
    Writer m_writer;
    const SiteId& m_site;
    const HeadKeeper& m_keeper;
    const Append& m_append;
    const SiteView& m_before;
    std::optional<SiteView> m_after; ///< only when the site changes
    std::vector<Head> m_known;
    std::vector<Head> m_heads; ///< of the streams that it wrote to
    bool m_staffSealed = false;
    std::optional<Basis> m_basis;
};

} // namespace ramplight
