// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/codec.h"
#include "domain/competence.h"
#include "domain/country.h"
#include "domain/fact.h"
#include "domain/findingrule.h"
#include "domain/vocabulary.h"

#include <QByteArray>
#include <QString>
#include <QStringList>

#include <optional>
#include <vector>

// What the workshop knows about its operations: who does them, how long they take, what proves
// them, what they make necessary, and which findings they answer. Read from db/catalogue; every
// limit names its owner, because a house default must never look like the law.
namespace ramplight {

enum class Skill { Mechanical, Wheels, SmartRepair, Glass, Trim, Valet, Checks, Office };
template <>
struct Names<Skill>
{
    static constexpr std::array table{
        std::pair{Skill::Mechanical, "mechanical"},
        std::pair{Skill::Wheels, "wheels"},
        std::pair{Skill::SmartRepair, "smart-repair"},
        std::pair{Skill::Glass, "glass"},
        std::pair{Skill::Trim, "trim"},
        std::pair{Skill::Valet, "valet"},
        std::pair{Skill::Checks, "checks"},
        std::pair{Skill::Office, "office"},
    };
};

/// Kind of standing place that an operation wants; Parking is no bay for work.
enum class BayKind { Any, Lift, Wheels, Paint, SmartRepair, Glass, Valet, Parking };
template <>
struct Names<BayKind>
{
    static constexpr std::array table{
        std::pair{BayKind::Any, "any"},
        std::pair{BayKind::Lift, "lift"},
        std::pair{BayKind::Wheels, "wheels"},
        std::pair{BayKind::Paint, "paint"},
        std::pair{BayKind::SmartRepair, "smart-repair"},
        std::pair{BayKind::Glass, "glass"},
        std::pair{BayKind::Valet, "valet"},
        std::pair{BayKind::Parking, "parking"},
    };
};

/// A bound on a reading. Numbers are whole counts of 10^-decimals of the reading's unit
/// (decimals = 1 and unit mm: 16 is 1.6 mm).
struct Limit
{
    LimitOwner owner = LimitOwner::House;
    QString source; ///< where it can be looked up, in words
    std::optional<int> min;
    std::optional<int> max;
    /// Name of the country's or the house's limit that fills the rest; empty: written here.
    QString named = {};

    static constexpr auto fields = fieldList(
        field("owner", &Limit::owner), field("source", &Limit::source), field("min", &Limit::min),
        field("max", &Limit::max), field("named", &Limit::named));
    friend bool operator==(const Limit&, const Limit&) = default;
};

enum class ReadingKind {
    Limit,  ///< a number against limits; outside opens the follow-up
    Figure, ///< a number that must equal this car's figure, entered beforehand by somebody else
    Record, ///< a number that is only kept
    Choice, ///< one of the options; an option may open a follow-up or forbid closing
    Text,   ///< words or a number off a label
};
template <>
struct Names<ReadingKind>
{
    static constexpr std::array table{
        std::pair{ReadingKind::Limit, "limit"},   std::pair{ReadingKind::Figure, "figure"},
        std::pair{ReadingKind::Record, "record"}, std::pair{ReadingKind::Choice, "choice"},
        std::pair{ReadingKind::Text, "text"},
    };
};

/// What puts right a number outside its limit, or an answer that forbids closing, where neither
/// opens a follow-up.
enum class RemediedBy {
    SameWork,    ///< the same work is done again, and measured again
    CheckedWork, ///< the check fails, and the work that it checks goes back to its doer
    Finding,     ///< a finding is recorded, and what that opens is done
};
template <>
struct Names<RemediedBy>
{
    static constexpr std::array table{
        std::pair{RemediedBy::SameWork, "same-work"},
        std::pair{RemediedBy::CheckedWork, "checked-work"},
        std::pair{RemediedBy::Finding, "finding"},
    };
};

struct ChoiceOption
{
    QString id;
    QString title;
    bool closes = true; ///< false: with this answer the operation cannot be closed
    QString opens;      ///< the follow-up operation's id, empty when none
    std::optional<RemediedBy> remediedBy = {}; ///< of an answer that forbids closing

    static constexpr auto fields =
        fieldList(field("id", &ChoiceOption::id), field("title", &ChoiceOption::title),
                  field("closes", &ChoiceOption::closes), field("opens", &ChoiceOption::opens),
                  field("remediedBy", &ChoiceOption::remediedBy));
    friend bool operator==(const ChoiceOption&, const ChoiceOption&) = default;
};

/// One value that an operation asks for before it can close.
struct ReadingSpec
{
    QString key; ///< unique within the operation
    QString title;
    ReadingKind kind = ReadingKind::Record;
    Unit unit = Unit::None;
    int decimals = 0;
    std::vector<Limit> limits;
    /// Set when a limit or figure belongs to the car or the product and must be entered first:
    /// who is to be asked. Without an entered value the reading is refused.
    std::optional<LimitOwner> neededFrom;
    bool neededIsMax = false;    ///< an entered limit is an upper one (otherwise a lower one)
    std::vector<PlaceId> places; ///< one reading for each of these; empty: one for the operation
    std::vector<ChoiceOption> options;
    QString opens; ///< follow-up operation when the number is outside its limits
    bool optional = false;
    std::optional<ToolKind> tool = {};         ///< measured with one of these, in date
    std::optional<RemediedBy> remediedBy = {}; ///< of a number outside its limits

    static constexpr auto fields =
        fieldList(field("key", &ReadingSpec::key), field("title", &ReadingSpec::title),
                  field("kind", &ReadingSpec::kind), field("unit", &ReadingSpec::unit),
                  field("decimals", &ReadingSpec::decimals), field("limits", &ReadingSpec::limits),
                  field("neededFrom", &ReadingSpec::neededFrom),
                  field("neededIsMax", &ReadingSpec::neededIsMax),
                  field("places", &ReadingSpec::places), field("options", &ReadingSpec::options),
                  field("opens", &ReadingSpec::opens), field("optional", &ReadingSpec::optional),
                  field("tool", &ReadingSpec::tool), field("remediedBy", &ReadingSpec::remediedBy));
    friend bool operator==(const ReadingSpec&, const ReadingSpec&) = default;
    /// Of a value of this reading, where one is named.
    [[nodiscard]] std::optional<RemediedBy> remedyOf(const QString& answer) const;
};

enum class PhotoMoment { Before, During, After };
template <>
struct Names<PhotoMoment>
{
    static constexpr std::array table{
        std::pair{PhotoMoment::Before, "before"},
        std::pair{PhotoMoment::During, "during"},
        std::pair{PhotoMoment::After, "after"},
    };
};

struct PhotoSpec
{
    PhotoMoment moment = PhotoMoment::After;
    QString title;

    static constexpr auto fields =
        fieldList(field("moment", &PhotoSpec::moment), field("title", &PhotoSpec::title));
    friend bool operator==(const PhotoSpec&, const PhotoSpec&) = default;
};

/// How a second person comes in; the two are never the same thing.
enum class SecondPerson {
    None,
    Check,       ///< this operation is a check of other work; its signer did none of that work
    Countersign, ///< this operation's sign-off needs a second signature
};
template <>
struct Names<SecondPerson>
{
    static constexpr std::array table{
        std::pair{SecondPerson::None, "none"},
        std::pair{SecondPerson::Check, "check"},
        std::pair{SecondPerson::Countersign, "countersign"},
    };
};

/// What may not be done with the car.
enum class Restraint { Move, Drive, Power };
template <>
struct Names<Restraint>
{
    static constexpr std::array table{std::pair{Restraint::Move, "move"},
                                      std::pair{Restraint::Drive, "drive"},
                                      std::pair{Restraint::Power, "power"}};
};

enum class RestraintFrom {
    Opened,  ///< as long as the operation is open at all (a check that is still owed)
    Started, ///< from the first start until it is closed
    Waiting, ///< for the waiting time after the sign-off (adhesive curing)
};
template <>
struct Names<RestraintFrom>
{
    static constexpr std::array table{std::pair{RestraintFrom::Opened, "opened"},
                                      std::pair{RestraintFrom::Started, "started"},
                                      std::pair{RestraintFrom::Waiting, "waiting"}};
};

struct Immobilises
{
    std::vector<Restraint> what;
    RestraintFrom from = RestraintFrom::Started;
    QString words; ///< the reason as a technician says it: "wheels are off"

    static constexpr auto fields =
        fieldList(field("what", &Immobilises::what), field("from", &Immobilises::from),
                  field("words", &Immobilises::words));
    friend bool operator==(const Immobilises&, const Immobilises&) = default;
};

/// How far one operation of a kind reaches; findings inside its reach share it.
enum class Scope { Car, Axle, Place };
template <>
struct Names<Scope>
{
    static constexpr std::array table{std::pair{Scope::Car, "car"}, std::pair{Scope::Axle, "axle"},
                                      std::pair{Scope::Place, "place"}};
};

/// Opened when the operation that carries it closes, if the car has the fact.
struct Trigger
{
    QString opens;
    std::optional<Fact> ifFact;

    static constexpr auto fields =
        fieldList(field("opens", &Trigger::opens), field("ifFact", &Trigger::ifFact));
    friend bool operator==(const Trigger&, const Trigger&) = default;
};

/// What an operation's minutes are counted for.
enum class MinutesPer {
    Operation, ///< once, however much it answers
    Place,     ///< for each place that it answers, at least one
};
template <>
struct Names<MinutesPer>
{
    static constexpr std::array table{std::pair{MinutesPer::Operation, "operation"},
                                      std::pair{MinutesPer::Place, "place"}};
};

/// Hands-on minutes, low / usual / high.
struct Minutes
{
    int low = 0;
    int usual = 0;
    int high = 0;

    static constexpr auto fields =
        fieldList(field("low", &Minutes::low), field("usual", &Minutes::usual),
                  field("high", &Minutes::high));
    friend bool operator==(const Minutes&, const Minutes&) = default;
};

/// Minutes that hold car or part but nobody's hands, after the sign-off.
struct WaitingTime
{
    int usual = 0;
    QString reason;
    QString reading; ///< key of the reading that gives the minutes instead (adhesive's own time)
    bool within = false; ///< it lies before the sign-off (bakes between coats): nothing waits after

    static constexpr auto fields =
        fieldList(field("usual", &WaitingTime::usual), field("reason", &WaitingTime::reason),
                  field("reading", &WaitingTime::reading), field("within", &WaitingTime::within));
    friend bool operator==(const WaitingTime&, const WaitingTime&) = default;
};

/// An operation as the catalogue has it, and as an event carries it (resolved) into the ledger.
struct OperationSpec
{
    OperationSpec(); // these six are compiled once: copies cost every unit that makes one a second
    OperationSpec(const OperationSpec& other);
    OperationSpec(OperationSpec&& other) noexcept;
    OperationSpec& operator=(const OperationSpec& other);
    OperationSpec& operator=(OperationSpec&& other) noexcept;
    ~OperationSpec();

    QString id;
    QString title; ///< without the place: "refurbish, painted"
    Skill skill = Skill::Mechanical;
    Scope scope = Scope::Car;
    std::vector<PlaceKind> placeKinds; ///< where it can be done; empty: anywhere
    bool safety = false;
    SecondPerson secondPerson = SecondPerson::None;
    QStringList checksWorkOf; ///< with Check: operation ids whose doers may not sign; "*" is all
    Minutes minutes;
    MinutesPer minutesPer = MinutesPer::Operation;
    WaitingTime wait;
    BayKind bay = BayKind::Any;
    /// While one of these is open on the car (same place), this cannot start; "*" is any other.
    QStringList after;
    std::vector<Trigger> triggers;
    std::vector<ReadingSpec> readings;
    std::vector<PhotoSpec> photos;
    QStringList cautions;
    std::vector<Immobilises> immobilises;
    std::vector<Restraint> needs;      ///< what doing it does to the car: a road test drives it
    bool highVoltageIsolation = false; ///< the traction battery is isolated during it
    std::vector<PlaceId> clears;       ///< places that count as looked at once it is closed
    bool baseline = false;             ///< every car gets it on arrival (if it has the fact)
    std::optional<Fact> ifFact;        ///< baseline and triggered only for cars with this fact
    std::optional<Qualification> qualification = {}; ///< who does it holds one that is in date
    /// Within the skill, like dents without paint; empty: anybody of the skill.
    QString speciality = {};
    int batch = 1;         ///< how many at once: an oven load of wheels
    bool overnight = true; ///< may be left half done until the next shift
    /// What may be in hand on the same car meanwhile: "*" is anything, empty is nothing. Two run
    /// beside each other only when each allows the other.
    QStringList beside = {QStringLiteral("*")};
    /// While it is open for findings at a place, these are not needed there: it does their work.
    QStringList covers = {};
    bool access = false; ///< done only to get at something: goes with the last that wanted it
    /// No safety hangs on it, yet nobody leaves it undone and tells the buyer: it is how the house
    /// knows which car this is, or whether other work holds.
    bool neverLeft = false;
    QStringList advice = {}; ///< what the buyer is to do about it once it was done here
    QStringList refer = {};  ///< when to refuse it or send it elsewhere, in words
    std::optional<int> materialMinor = {}; ///< minor currency units; unset: the house entered none
    /// At most so many days from its closing to the release; older, it is to be done once more.
    std::optional<Limit> fresh = std::nullopt;

    static constexpr auto fields = fieldList(
        field("id", &OperationSpec::id), field("title", &OperationSpec::title),
        field("skill", &OperationSpec::skill), field("scope", &OperationSpec::scope),
        field("placeKinds", &OperationSpec::placeKinds), field("safety", &OperationSpec::safety),
        field("secondPerson", &OperationSpec::secondPerson),
        field("checksWorkOf", &OperationSpec::checksWorkOf),
        field("minutes", &OperationSpec::minutes), field("minutesPer", &OperationSpec::minutesPer),
        field("wait", &OperationSpec::wait), field("bay", &OperationSpec::bay),
        field("after", &OperationSpec::after), field("triggers", &OperationSpec::triggers),
        field("readings", &OperationSpec::readings), field("photos", &OperationSpec::photos),
        field("cautions", &OperationSpec::cautions),
        field("immobilises", &OperationSpec::immobilises), field("needs", &OperationSpec::needs),
        field("highVoltageIsolation", &OperationSpec::highVoltageIsolation),
        field("clears", &OperationSpec::clears), field("baseline", &OperationSpec::baseline),
        field("ifFact", &OperationSpec::ifFact),
        field("qualification", &OperationSpec::qualification),
        field("speciality", &OperationSpec::speciality), field("batch", &OperationSpec::batch),
        field("overnight", &OperationSpec::overnight), field("beside", &OperationSpec::beside),
        field("covers", &OperationSpec::covers), field("access", &OperationSpec::access),
        field("neverLeft", &OperationSpec::neverLeft), field("refer", &OperationSpec::refer),
        field("materialMinor", &OperationSpec::materialMinor),
        field("advice", &OperationSpec::advice), field("fresh", &OperationSpec::fresh));
    friend bool operator==(const OperationSpec&, const OperationSpec&) = default;

    /// Whether it can be done there. What concerns the car as a whole can always be asked for it.
    [[nodiscard]] bool isFor(PlaceKind kind) const;
};

struct Catalogue
{
    Catalogue(); // these six are compiled once: copies cost every unit that makes one a second
    Catalogue(const Catalogue& other);
    Catalogue(Catalogue&& other) noexcept;
    Catalogue& operator=(const Catalogue& other);
    Catalogue& operator=(Catalogue&& other) noexcept;
    ~Catalogue();

    int format = 1;
    QString title;
    QString standingLine; ///< the safety line shown with every caution
    std::vector<OperationSpec> operations;
    std::vector<FindingRule> rules;
    std::vector<LikelyConditions> likely;
    std::vector<Suggestion> suggestions;
    std::vector<SafetyPlace> safetyPlaces;
    TreadRule tread;
    std::vector<Country> countries;
    std::vector<NamedLimit> houseLimits; ///< as shipped; the house sets its own values
    QString hash; ///< SHA-256 of the file, set by the reader; every opened operation names it

    static constexpr auto fields = fieldList(
        field("format", &Catalogue::format), field("title", &Catalogue::title),
        field("standingLine", &Catalogue::standingLine),
        field("operations", &Catalogue::operations), field("rules", &Catalogue::rules),
        field("likely", &Catalogue::likely), field("suggestions", &Catalogue::suggestions),
        field("safetyPlaces", &Catalogue::safetyPlaces), field("tread", &Catalogue::tread),
        field("countries", &Catalogue::countries), field("houseLimits", &Catalogue::houseLimits));
    friend bool operator==(const Catalogue&, const Catalogue&) = default;

    /// Null when there is none of that id.
    [[nodiscard]] const OperationSpec* find(const QString& id) const;
};

struct CatalogueReading
{
    Catalogue catalogue;
    QStringList faults; ///< in words, each naming operation and field; empty: the catalogue is good
};

/// Reads and checks a catalogue file's bytes: types, unknown ids, cycles in after and in triggers,
/// limits without an owner, choices without options, a safety place whose inspection does not
/// clear it, triggers and baseline that name operations which are not there. Limits that are only
/// named hold the figures of the default country and the shipped ones of the house, until
/// houseCatalogue() puts in a house's own.
[[nodiscard]] CatalogueReading readCatalogue(const QByteArray& json);

} // namespace ramplight
