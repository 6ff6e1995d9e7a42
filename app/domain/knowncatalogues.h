// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/catalogue.h"
#include "domain/site.h"

#include <tl/expected.hpp>

#include <optional>
#include <vector>

// The catalogues against which an entry can be held that says which work it opened.
namespace ramplight {

/// A value without which an operation was never signed.
struct LeastReading
{
    QString key;
    ReadingKind kind = ReadingKind::Record;

    static constexpr auto fields =
        fieldList(field("key", &LeastReading::key), field("kind", &LeastReading::kind));
    friend bool operator==(const LeastReading&, const LeastReading&) = default;
};

/// What an operation asked for in every version of the shipped catalogue.
struct LeastAsked
{
    QString operation;
    bool safety = false;
    SecondPerson secondPerson = SecondPerson::None;
    std::vector<LeastReading> readings;
    bool baseline = false; ///< every car got it on arrival (if it has the fact)
    std::optional<Fact> ifFact;

    static constexpr auto fields = fieldList(
        field("operation", &LeastAsked::operation), field("safety", &LeastAsked::safety),
        field("secondPerson", &LeastAsked::secondPerson), field("readings", &LeastAsked::readings),
        field("baseline", &LeastAsked::baseline), field("ifFact", &LeastAsked::ifFact));
    friend bool operator==(const LeastAsked&, const LeastAsked&) = default;
};

struct LeastCatalogue
{
    std::vector<LeastAsked> operations;
    std::vector<SafetyPlace> safetyPlaces; ///< that cars had in every version

    static constexpr auto fields = fieldList(field("operations", &LeastCatalogue::operations),
                                             field("safetyPlaces", &LeastCatalogue::safetyPlaces));
    friend bool operator==(const LeastCatalogue&, const LeastCatalogue&) = default;

    [[nodiscard]] const LeastAsked* find(const QString& operation) const;
};

/// db/catalogue/least.json. Error: what is wrong with it, in words.
[[nodiscard]] tl::expected<LeastCatalogue, QString> readLeast(const QByteArray& json);
/// What an operation does not ask for that was always asked; empty when it asks for all of it.
[[nodiscard]] QStringList notAsked(const OperationSpec& spec, const LeastAsked& least);
/// The same work by the same rules: only the words of its photos may differ, which the house's own
/// are given in the language of the kiosk.
[[nodiscard]] bool asksTheSame(const OperationSpec& one, const OperationSpec& other);

/// One that the house took in stands in the ledger, and this program has its own: both are known as
/// a whole. Of other versions of the shipped one it is only known what they asked for at least.
/// houseCatalogue() makes the same of the same file and house in every version of the program.
/// Keeps what it made last: each thread has its own.
class KnownCatalogues
{
public:
    /// Those that the house took in.
    KnownCatalogues() = default;
    /// This program's own as well; it outlives them.
    KnownCatalogues(const Catalogue& shipped, LeastCatalogue least);

    /// As it held in the house, with the house's changes; null when the one of that hash is not
    /// known.
    [[nodiscard]] const Catalogue* inForce(const SiteState& site, const QString& hash) const;
    /// Whether the one in force is known not to have an operation that work of an older one opens.
    [[nodiscard]] bool isWithout(const SiteState& site, const QString& operation) const;
    /// Null where the house took one in, or none is known.
    [[nodiscard]] const LeastCatalogue* least(const SiteState& site) const;

private:
    struct Made
    {
        AdoptedCatalogue adopted;
        std::map<QString, OperationAdjustment> adjustments;
        HouseRules rules;
        Catalogue catalogue;
    };
    const Catalogue* m_shipped = nullptr;
    std::optional<LeastCatalogue> m_least;
    mutable std::optional<Made> m_made;
};

} // namespace ramplight
