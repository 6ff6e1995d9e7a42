// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "smallcatalogue.h"
#include "support/memoryledger.h"

#include "domain/holds.h"
#include "domain/workshop.h"

#include <functional>
#include <source_location>

// A workshop on the bench: the small catalogue, a ledger in memory, a clock that stands still, nine
// people. Every command goes through Workshop, as at the wall.
namespace ramplight::test {

/// What ask() answers when the command was carried out.
inline const QString done = QStringLiteral("done");
[[nodiscard]] inline QString no(RefusalId id)
{
    return idText(id);
}

[[nodiscard]] inline ReadingValue number(int value)
{
    return {value, {}};
}
[[nodiscard]] inline ReadingValue answer(const char* text)
{
    return {std::nullopt, QString::fromLatin1(text)};
}
[[nodiscard]] FindingData finding(const char* place, Condition condition);
/// What was said on a walk-round: as many dents of the roof.
[[nodiscard]] SpokenRound spokenRound(int dents);
[[nodiscard]] CarFacts carWith(std::vector<Fact> facts);
/// The first tool of the house that is good for a reading on that day; null when it wants none.
[[nodiscard]] ToolId toolInDate(const SiteState& site, const ReadingSpec& spec, QDate day);

class Workbench
{
public:
    explicit Workbench(const HouseRules& rules = {});

    // ---- asking
    using Where = std::source_location;
    /// The refusal's stable id, "done", or the store's words.
    QString ask(PersonId who, const CarId& car, const CarCommand& command, bool pinFresh = false);
    QString ask(PersonId who, const SiteCommand& command, const QString& name = {});
    QString askTogether(PersonId who, const std::vector<TogetherRequest::Item>& items);
    QString askToJoin(PersonId who, const CarId& keep, const CarId& second);
    /// Fails the test at the caller's line when the command is refused.
    std::vector<CarEvent> must(PersonId who, const CarId& car, const CarCommand& command,
                               Where where = Where::current());
    PersonId hire(const QString& name, std::vector<Skill> skills, std::vector<Right> rights,
                  Where where = Where::current());
    /// Words of the last refusal.
    [[nodiscard]] QString lastWords() const { return m_lastWords; }
    [[nodiscard]] Refusal lastRefusal() const { return m_lastRefusal; }

    // ---- cars
    CarId bringIn(const CarFacts& facts = carWith({Fact::CombustionEngine}),
                  Where where = Where::current());
    /// Brought in, all its places sound, the appraisal finished.
    CarId appraised(const CarFacts& facts = carWith({Fact::CombustionEngine}),
                    Where where = Where::current());
    FindingId found(const CarId& car, const char* place, Condition condition,
                    Where where = Where::current());
    [[nodiscard]] CarState car(const CarId& id);
    /// What the check of a ledger says of this car's whole history.
    [[nodiscard]] QStringList broken(const CarId& id);
    /// The newest operation of a kind that is open, at a place when one is given; null when none
    /// is.
    [[nodiscard]] OperationId open(const CarId& id, const char* kind, const char* place = nullptr);
    /// The newest of a kind in whatever state.
    [[nodiscard]] OperationId newest(const CarId& id, const char* kind);
    [[nodiscard]] const Operation& operation(const CarId& car, OperationId id);
    [[nodiscard]] OperationState state(const CarId& car, OperationId id);
    [[nodiscard]] std::vector<Hold> holds(const CarId& id);
    [[nodiscard]] CarStatus status(const CarId& id);

    // ---- work
    void start(const CarId& car, OperationId operation, PersonId who,
               Where where = Where::current());
    /// Every photo, figure and reading, inside its limits, as far as they are missing.
    void prove(const CarId& car, OperationId operation, PersonId who,
               Where where = Where::current());
    /// From whatever state to closed: started, ten minutes, proved, signed, countersigned.
    void close(const CarId& car, OperationId operation, PersonId who = {},
               Where where = Where::current());
    /// Closes what is open in a legal order until nothing is left; time passes.
    void closeAll(const CarId& car, Where where = Where::current());
    void release(const CarId& car, Where where = Where::current());
    /// Somebody of the house who may do an operation and did none of the work that it checks.
    [[nodiscard]] PersonId whoFor(const Operation& operation) const;
    /// A value that closes.
    [[nodiscard]] static ReadingValue goodValue(const Operation& operation, const ReadingSpec& spec,
                                                const PlaceId& place);
    /// A photo that nobody attached yet; without bytes, unless photosFrom() said where they are.
    [[nodiscard]] PhotoId photo();
    void photosFrom(std::function<PhotoId()> kept) { m_kept = std::move(kept); }
    [[nodiscard]] CommandId command();
    [[nodiscard]] QDate today() const { return dayOf(clock.now(), HouseRules{}); }
    /// The operation asks for this from here on; on cars that come in afterwards.
    OperationSpec& spec(const char* kind);
    /// A tool of the house, due on this day.
    ToolId tool(const char* number, ToolKind kind, QDate due, Where where = Where::current());

    StillClock clock;
    MemoryLedger ledger;
    Catalogue catalogue = smallCatalogue();
    Workshop workshop{ledger, clock, catalogue};

    PersonId manager;    ///< all rights, no skill
    PersonId appraiser;  ///< appraise
    PersonId mechanic;   ///< work: mechanical
    PersonId technician; ///< work and check: mechanical
    PersonId wheels;     ///< work: wheels
    PersonId painter;    ///< work: smart repair, valet
    PersonId glazier;    ///< work: glass
    PersonId checker;    ///< check, manage
    PersonId seller;     ///< release
    BayId lift;
    BayId paintBay;

private:
    void fail(const QString& what, Where where) const;
    /// For lastWords() and lastRefusal(); what ask() says of it.
    QString noted(const Failure& failure);
    QString m_lastWords;
    Refusal m_lastRefusal;
    int m_commands = 0;
    int m_photos = 0;
    std::function<PhotoId()> m_kept;
    int m_cars = 0;
    Operation m_shown;
};

} // namespace ramplight::test
