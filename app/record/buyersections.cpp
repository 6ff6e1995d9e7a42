// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "record/buyersections.h"

#include "domain/carcommands.h"
#include "domain/say.h"
#include "domain/words.h"
#include "record/recordwords.h"

#include <algorithm>
#include <cstdlib>
#include <optional>

namespace ramplight::paper {

namespace {

constexpr std::size_t mostReadings = 1; ///< of an item, on this page
constexpr double aboveHeading = 4 * mm;

// ---- findings

struct Group
{
    FindingOutcome outcome;
    QString title;
    std::vector<const RecordFinding*> findings;
};

/// What is still there comes before what is done.
std::vector<Group> groupsOf(const RecordModel& model)
{
    std::vector<Group> groups{{FindingOutcome::Left, say("Left as it is"), {}},
                              {FindingOutcome::Open, say("Not finished"), {}},
                              {FindingOutcome::Done, say("Dealt with"), {}}};
    for (const RecordFinding& finding : model.findings)
        for (Group& group : groups)
            if (outcomeOf(model, finding) == group.outcome)
                group.findings.push_back(&finding);
    std::erase_if(groups, [](const Group& group) { return group.findings.empty(); });
    return groups;
}

/// No longer than what is asked for today: earlier words have no end.
QString brief(const QString& words)
{
    if (words.size() <= car::mostWordsForTheBuyer)
        return words;
    const qsizetype blank = words.lastIndexOf(QLatin1Char(' '), car::mostWordsForTheBuyer);
    const qsizetype end = blank > car::mostWordsForTheBuyer / 2 ? blank : car::mostWordsForTheBuyer;
    return say("%1 … (the whole text is on the pages that follow)").arg(words.left(end));
}

/// The work that was done or is still to be done; of what is left as it is, the words for the buyer
/// and the work that was not done.
QString became(const RecordModel& model, const RecordFinding& finding, FindingOutcome outcome)
{
    if (outcome != FindingOutcome::Left)
        return capital(workWords(model, finding));
    QStringList said;
    for (const OperationId id : finding.answeredBy)
        if (const RecordOperation* operation = model.operation(id);
            operation != nullptr && operation->state == OperationState::LeftAsIs) {
            if (!operation->leftWords.isEmpty())
                said.append(brief(operation->leftWords));
            said.append(say("not done: %1").arg(operation->title));
        }
    if (said.isEmpty())
        said.append(finding.now().data.note.isEmpty() ? say("nothing is to be done")
                                                      : brief(finding.now().data.note));
    return capital(said.join(QStringLiteral("; ")));
}

void addFound(Flow& flow, const RecordModel& model, std::size_t most)
{
    constexpr double label = 24 * mm;
    constexpr double number = 8 * mm;
    constexpr double found = 72 * mm;
    const std::vector<Group> groups = groupsOf(model);
    flow.heading(say("What was found, and what became of it"), aboveHeading);
    if (groups.empty())
        flow.text(say("Nothing was found."));
    std::size_t shown = 0;
    std::size_t all = 0;
    for (const Group& group : groups) {
        all += group.findings.size();
        QString title = group.title;
        for (const RecordFinding* finding : group.findings) {
            if (shown == most)
                break;
            ++shown;
            flow.row({{0, label - 2 * mm, title, Type::SmallBold},
                      {label, number, QString::number(finding->id.value), Type::SmallBold},
                      {label + number, found - 3 * mm, finding->now().words, Type::Small},
                      {label + number + found, column - label - number - found,
                       became(model, *finding, group.outcome), Type::Small, Tone::Muted}});
            title.clear();
        }
    }
    if (shown < all)
        flow.row(
            {{label, column - label,
              shown == 0
                  ? say("%1 found; the list is on the pages that follow").arg(all)
                  : say("and %1 more; the whole list is on the pages that follow").arg(all - shown),
              Type::Small, Tone::Muted}});
    const bool nothingLeft = std::ranges::none_of(
        groups, [](const Group& group) { return group.outcome != FindingOutcome::Done; });
    if (!groups.empty() && nothingLeft) {
        flow.gap(0.8 * mm);
        flow.text(say("Nothing that was found has been left as it is."), Type::Small);
    }
}

void addAlsoDone(Flow& flow, const RecordModel& model)
{
    QStringList titles;
    for (const RecordOperation& operation : model.operations)
        if (operation.state == OperationState::Closed && operation.findings.empty() &&
            !operation.safety && !titles.contains(operation.title))
            titles.append(operation.title);
    if (titles.isEmpty())
        return;
    flow.gap(1.4 * mm);
    flow.row({{0, 22 * mm, say("Also done"), Type::SmallBold},
              {24 * mm, column - 24 * mm, titles.join(QStringLiteral("; ")) + QLatin1Char('.'),
               Type::Small}});
}

/// What several wheels ask for stands there once.
void addAdvice(Flow& flow, const RecordModel& model)
{
    constexpr qsizetype most = 6;
    QStringList advice;
    for (const RecordOperation& operation : model.operations)
        for (const QString& words : operation.advice)
            if (!advice.contains(words))
                advice.append(words);
    if (advice.isEmpty())
        return;
    flow.heading(say("For you to do"), aboveHeading);
    for (const QString& words : advice.first(std::min(most, advice.size())))
        flow.text(words, Type::SmallBold);
    if (advice.size() > most)
        flow.text(
            say("and %1 more, which stand with the work they are of").arg(advice.size() - most),
            Type::Small, Tone::Muted);
}

// ---- safety items

/// How much of its limit a reading keeps away from it: 0 at the limit, below it outside.
std::optional<double> roomOf(const RecordReading& reading)
{
    if (!reading.value.number)
        return std::nullopt;
    const double value = *reading.value.number;
    std::optional<double> room;
    const auto take = [&](double away, double limit) {
        const double share = away / std::max(1.0, std::abs(limit));
        room = std::min(share, room.value_or(share));
    };
    for (const Limit& limit : reading.limits) {
        // What is set to one figure is always at its limit, and says least about the car.
        const bool set = limit.min && limit.max && *limit.min == *limit.max;
        if (set && reading.outcome != ReadingOutcome::Outside) {
            room = std::min(1.0, room.value_or(1.0));
            continue;
        }
        if (limit.min)
            take(value - *limit.min, *limit.min);
        if (limit.max)
            take(*limit.max - value, *limit.max);
    }
    return room;
}

/// The readings nearest to their limits, one for each thing that was read, and how many there are.
QString briefReadings(const RecordOperation& operation)
{
    struct Nearest
    {
        const RecordReading* reading = nullptr;
        double room = 0;
        int places = 0;
    };
    std::vector<Nearest> nearest;
    int all = 0;
    int outside = 0;
    for (const RecordReading& reading : operation.readings) {
        if (reading.superseded)
            continue;
        ++all;
        outside += reading.outcome == ReadingOutcome::Outside ? 1 : 0;
        const auto room = roomOf(reading);
        if (!room)
            continue;
        const auto same = std::ranges::find_if(
            nearest, [&](const Nearest& one) { return one.reading->key == reading.key; });
        if (same == nearest.end())
            nearest.push_back({&reading, *room, 1});
        else if (++same->places; *room < same->room)
            *same = {&reading, *room, same->places};
    }
    std::ranges::stable_sort(nearest, {}, &Nearest::room);
    if (nearest.size() > mostReadings)
        nearest.resize(mostReadings);
    QStringList said;
    int told = 0;
    for (const Nearest& one : nearest) {
        told += one.places;
        said.append(QStringLiteral("%1: %2 (%3)")
                        .arg(one.reading->name, one.reading->valueWords, one.reading->boundWords));
    }
    if (all == 0)
        return operation.isOpen() ? say("not read yet") : say("nothing to be read");
    if (nearest.empty())
        said.append(all == 1 ? say("one point looked at") : say("%1 points looked at").arg(all));
    else if (all > told)
        said.append(all - told == 1 ? say("one more point")
                                    : say("%1 more points").arg(all - told));
    if (outside > 0)
        said.append(outside == 1 ? say("one outside its limit")
                                 : say("%1 outside their limits").arg(outside));
    return said.join(QStringLiteral("; "));
}

QString signedBy(const RecordModel& model, const RecordOperation& operation)
{
    QStringList names;
    for (const RecordSignature& signature : operation.signatures) {
        if (signature.voided)
            continue;
        const QString name = model.nameOf(signature.by);
        switch (signature.meaning) {
        case SignatureMeaning::DidTheWork:
            names.append(name);
            break;
        case SignatureMeaning::CheckedTheWork:
            names.append(operation.checked.empty()
                             ? say("%1, checked").arg(name)
                             : say("%1, checked the work of %2")
                                   .arg(name, namesOf(model, operation.checked)));
            break;
        case SignatureMeaning::Countersigned:
            names.append(say("%1, second person").arg(name));
            break;
        case SignatureMeaning::ReceivedFromOutside:
            names.append(say("%1, took it back from outside").arg(name));
            break;
        }
    }
    if (names.isEmpty())
        return say("nobody yet");
    if (operation.second == SecondPerson::Countersign && names.size() < 2)
        names.append(say("second person: nobody yet"));
    return names.join(QStringLiteral("; "));
}

/// A line of the table of safety items.
struct SafetyRow
{
    QStringList items;
    QString read;
    QString names;
    bool closed = true;
    bool plain = false; ///< closed, and nothing was read against a limit
    int points = 0;
};

SafetyRow safetyRowOf(const RecordModel& model, const RecordOperation& operation)
{
    SafetyRow row;
    row.closed = operation.state == OperationState::Closed;
    row.items = {row.closed
                     ? operation.title
                     : QStringLiteral("%1: %2").arg(operation.title, words(operation.state))};
    row.read = briefReadings(operation);
    row.names = signedBy(model, operation);
    const auto counts = [](const RecordReading& reading) { return !reading.superseded; };
    row.points = static_cast<int>(std::ranges::count_if(operation.readings, counts));
    row.plain =
        row.closed && std::ranges::none_of(operation.readings, [&](const RecordReading& reading) {
            return counts(reading) &&
                   (roomOf(reading).has_value() || reading.outcome == ReadingOutcome::Outside);
        });
    return row;
}

/// What is still open first. joined: what was looked at only is one line for those who signed it.
std::vector<SafetyRow> safetyRowsOf(const RecordModel& model, bool joined)
{
    std::vector<SafetyRow> rows;
    for (const RecordOperation& operation : model.operations) {
        if (!operation.safety || operation.state == OperationState::Withdrawn)
            continue;
        SafetyRow row = safetyRowOf(model, operation);
        const auto same = std::ranges::find_if(rows, [&](const SafetyRow& other) {
            return joined && row.plain && other.plain && other.names == row.names;
        });
        if (same == rows.end()) {
            rows.push_back(std::move(row));
            continue;
        }
        same->items += row.items;
        same->points += row.points;
        same->read = same->points == 0 ? say("nothing to be read")
                                       : say("%1 points looked at").arg(same->points);
    }
    std::ranges::stable_partition(rows, [](const SafetyRow& row) { return !row.closed; });
    return rows;
}

/// How much of it stands on the buyer's page.
struct Extent
{
    std::size_t findings = 0;
    bool joined = false;
    std::size_t safetyRows = 0;
};

void addSafety(Flow& flow, const RecordModel& model, const Extent& extent)
{
    constexpr double item = 62 * mm;
    constexpr double measured = 72 * mm;
    constexpr double names = column - item - measured;
    const std::vector<SafetyRow> rows = safetyRowsOf(model, extent.joined);
    if (rows.empty())
        return;
    flow.heading(say("Safety items"), aboveHeading);
    flow.row({{0, item, say("Item"), Type::Small, Tone::Muted},
              {item, measured, say("What was read, nearest to its limit first"), Type::Small,
               Tone::Muted},
              {item + measured, names, say("Signed by"), Type::Small, Tone::Muted}},
             true);
    qsizetype more = 0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const SafetyRow& row = rows[i];
        if (i >= extent.safetyRows) {
            more += row.items.size();
            continue;
        }
        flow.rule();
        flow.row({{0, item - 3 * mm, row.items.join(QStringLiteral("; ")),
                   row.closed ? Type::Small : Type::SmallBold},
                  {item, measured - 3 * mm, row.read, Type::Small},
                  {item + measured, names, row.names, Type::Small}});
    }
    if (more > 0) {
        flow.rule();
        flow.row(
            {{0, column, say("and %1 more; all of them are on the pages that follow").arg(more),
              Type::Small, Tone::Muted}});
    }
}

void addAll(Flow& flow, const RecordModel& model, const Extent& extent)
{
    addFound(flow, model, extent.findings);
    addAlsoDone(flow, model);
    addAdvice(flow, model);
    addSafety(flow, model, extent);
}

bool fits(const RecordModel& model, const Extent& extent, double firstTop)
{
    Flow flow;
    addAll(flow, model, extent);
    return flow.pages(firstTop).size() == 1;
}

/// The most between two bounds for which something fits; the lower one is taken without a look.
template <class Fits>
std::size_t mostOf(std::size_t least, std::size_t most, const Fits& isFitting)
{
    while (least < most) {
        const std::size_t middle = (least + most + 1) / 2;
        if (isFitting(middle))
            least = middle;
        else
            most = middle - 1;
    }
    return least;
}

/// One page, always. What was found is what the buyer asks about first: the safety items, which
/// are all on the pages that follow, are shortened before it.
Extent extentFor(const RecordModel& model, double firstTop)
{
    constexpr std::size_t fewestRows = 5;
    Extent extent{model.findings.size(), false, model.operations.size()};
    if (fits(model, extent, firstTop))
        return extent;
    extent.joined = true;
    const std::size_t rows = safetyRowsOf(model, true).size();
    extent.safetyRows = mostOf(std::min(rows, fewestRows), rows, [&](std::size_t shown) {
        return fits(model, {extent.findings, true, shown}, firstTop);
    });
    extent.findings = mostOf(0, extent.findings, [&](std::size_t shown) {
        return fits(model, {shown, true, extent.safetyRows}, firstTop);
    });
    if (extent.findings == 0)
        extent.safetyRows = mostOf(0, extent.safetyRows, [&](std::size_t shown) {
            return fits(model, {0, true, shown}, firstTop);
        });
    return extent;
}

} // namespace

void addBuyerSections(Flow& flow, const RecordModel& model, double firstTop)
{
    addAll(flow, model, extentFor(model, firstTop));
    flow.turnPage();
}

} // namespace ramplight::paper
