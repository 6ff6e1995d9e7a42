// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/wallrow.h"

#include "domain/say.h"
#include "domain/worktotals.h"
#include "kiosk/carwords.h"
#include "kiosk/kioskenums.h"

#include <algorithm>

namespace ramplight {

namespace {

struct Foot
{
    QString who;
    QString what;
    bool forgotten = false;
    bool pastDue = false;
};

class Writer
{
public:
    Writer(const CarCard& card, const SiteBook& book, Moment now, const WallLook& look)
        : m_card(card)
        , m_book(book)
        , m_now(now)
        , m_look(look)
        , m_status(card.statusAt(now))
    {
    }

    [[nodiscard]] WallRow row() const
    {
        WallRow row;
        row.carId = m_card.car.text;
        row.stockNumber = m_card.identity.stockNumber;
        row.registration = m_card.identity.registration;
        row.makeModel = makeModelOf(m_card.identity);
        row.shape = nameOf(m_card.identity.shape);
        row.shapeColour = shapeColourOf(m_card.identity);
        row.marks = marksOf(m_card.marks);
        row.band = bandOf(m_card, m_now);
        row.statusWord = statusWords(m_card, m_now);
        lines(row);
        const Foot foot = this->foot();
        row.footWho = foot.who;
        row.footWhat = foot.what;
        row.forgotten = foot.forgotten;
        row.pastDue = foot.pastDue;
        row.promisedWord = m_book.times().day(m_card.promised, m_now);
        row.late = isLate(m_card.promised, m_now, m_book);
        row.placeWord = placeOf(m_card.bay, m_card.parking, m_book);
        const std::vector<Restraint> restraints = m_card.restraintsAt(m_now);
        row.restraintWords = restraintLine(restraints, m_card.restraintWordsAt(m_now));
        row.restraintShort = restraintLine(restraints, {});
        row.safetyCount = m_card.safetyHolds;
        row.releasable = m_status == CarStatus::ReadyForRelease;
        return row;
    }

private:
    void lines(WallRow& row) const
    {
        std::vector<const CardLine*> order;
        for (const CardLine& line : m_card.outstanding)
            order.push_back(&line);
        if (m_look.skill)
            std::ranges::stable_partition(
                order, [&](const CardLine* line) { return isOfSkill(*line, *m_look.skill); });
        // Places that nobody looked at, what was said and not decided, and work that counts no more
        // hold the car like work does.
        QStringList beside;
        if (m_card.notLookedAtCount > 0)
            beside.append(say("Not looked at: %1").arg(unseen()));
        const bool isIn = m_status != CarStatus::Released && m_status != CarStatus::Withdrawn;
        if (isIn && m_card.openDrafts > 0)
            beside.append(say("Spoken, not reviewed: %1").arg(m_card.openDrafts));
        if (isIn && !m_card.freshUntil.isNull() && m_now >= m_card.freshUntil)
            beside.append(say("Too old: %1").arg(m_card.oldTitles));
        const qsizetype room = m_look.lineLimit - beside.size();
        for (const CardLine* line : order) {
            if (row.lineTitles.size() >= room) {
                ++row.moreCount;
                continue;
            }
            row.lineTitles.append(line->title);
            row.lineSigns.append(line->safety ? Wall::Safety : Wall::Ordinary);
            row.lineBands.append(bandOf(line->state));
            row.lineWords.append(lineWords(*line));
        }
        for (const QString& title : beside) {
            row.lineTitles.append(title);
            row.lineSigns.append(Wall::Safety);
            row.lineBands.append(Wall::Waiting);
            row.lineWords.append(QString());
        }
    }

    [[nodiscard]] QString unseen() const
    {
        QStringList places;
        for (const MarkedPlace& marked : m_card.marks)
            if (marked.mark == PlaceMark::NotLookedAt)
                places.append(placeWords(marked.place, m_book.rules()));
        if (places.isEmpty() || places.size() > 2)
            return say("%1 safety places").arg(m_card.notLookedAtCount);
        return places.join(QStringLiteral(", "));
    }

    [[nodiscard]] QString dueWords(const CardLine& line) const
    {
        if (!line.due.isValid())
            return {};
        const TimeWords& times = m_book.times();
        return (times.isOver(line.due, m_now) ? say("was due %1") : say("due %1"))
            .arg(times.shortDay(line.due, m_now));
    }

    /// Of work that an outside firm did.
    [[nodiscard]] static QString backWords(const CardLine& line)
    {
        return line.waitsFor.isEmpty() ? say("awaiting check")
                                       : say("back from %1").arg(line.waitsFor);
    }

    [[nodiscard]] QString lineWords(const CardLine& line) const
    {
        switch (line.state) {
        case OperationState::InHand:
            return QStringLiteral("%1, %2").arg(namesOf(line.people, m_book),
                                                minutesWords(minutesOn(line, m_now)));
        case OperationState::Paused:
            return say("paused after %1").arg(minutesWords(minutesOn(line, m_now)));
        case OperationState::AwaitingCheck:
            return line.check ? say("awaiting check") : backWords(line);
        case OperationState::Blocked: {
            const QString due = dueWords(line);
            const QString waits =
                line.waitsFor.isEmpty() ? words(line.state) : say("waits: %1").arg(line.waitsFor);
            return due.isEmpty() ? waits : QStringLiteral("%1, %2").arg(waits, due);
        }
        default:
            break;
        }
        if (line.sentBack)
            return say("sent back");
        return line.assigned.isNull() ? QString() : say("for %1").arg(m_book.nameOf(line.assigned));
    }

    [[nodiscard]] const CardLine* first(auto&& fits) const
    {
        const auto found = std::ranges::find_if(m_card.outstanding, fits);
        return found == m_card.outstanding.end() ? nullptr : &*found;
    }

    /// What the car must not be is said on a strap of its own.
    [[nodiscard]] Foot foot() const
    {
        if (m_status == CarStatus::ReadyForRelease)
            return {say("ready for release"), say("wants a signature")};
        if (const CardLine* running = inHandOn(m_card, m_book.rules(), m_now)) {
            const QString who =
                dotted({namesOf(whoWorksOn(m_card), m_book), words(running->skill)});
            if (isForgotten(*running, m_book.rules(), m_now))
                return {who, stillWorkingWords(running->runningSince, m_book.times(), m_now), true};
            return {who, minutesWords(minutesOn(*running, m_now))};
        }
        if (m_card.curingUntil > m_now)
            return {say("curing"), say("%1 more").arg(minutesWords(
                                       std::max(1, minutesBetween(m_now, m_card.curingUntil))))};
        const CardLine* next =
            first([](const CardLine& line) { return canGoOn(line) && !line.check; });
        const CardLine* check =
            first([](const CardLine& line) { return canGoOn(line) && line.check; });
        if (next == nullptr && check != nullptr)
            return {say("awaiting check"), check->state == OperationState::AwaitingCheck
                                               ? m_book.times().since(check->stateSince, m_now)
                                               : QString()};
        if (next != nullptr && next->state == OperationState::AwaitingCheck)
            return {say("to look over: %1").arg(words(next->skill)), backWords(*next)};
        if (next != nullptr && next->sentBack)
            return {say("sent back: %1").arg(words(next->skill)), {}};
        if (next != nullptr && next->state == OperationState::Paused)
            return {say("paused: %1").arg(words(next->skill)),
                    m_book.times().since(next->stateSince, m_now)};
        if (next != nullptr)
            return {m_status == CarStatus::Arriving ? say("appraisal not finished")
                                                    : say("waits for %1").arg(words(next->skill)),
                    {}};
        if (const CardLine* blocked =
                first([](const CardLine& line) { return line.state == OperationState::Blocked; }))
            return {blocked->waitsFor.isEmpty() ? words(blocked->state)
                                                : say("waits: %1").arg(blocked->waitsFor),
                    dueWords(*blocked), false, m_book.times().isOver(blocked->due, m_now)};
        if (m_status == CarStatus::Arriving)
            return {say("appraisal not finished"), {}};
        return {words(m_status), {}};
    }

    const CarCard& m_card;
    const SiteBook& m_book;
    Moment m_now;
    const WallLook& m_look;
    CarStatus m_status;
};

} // namespace

WallRow wallRow(const CarCard& card, const SiteBook& book, Moment now, const WallLook& look)
{
    return Writer(card, book, now, look).row();
}

int bandOf(const CarCard& card, Moment now)
{
    const auto any = [&](auto&& fits) { return std::ranges::any_of(card.outstanding, fits); };
    const auto inState = [](OperationState state) {
        return [state](const CardLine& line) { return line.state == state; };
    };
    switch (card.statusAt(now)) {
    case CarStatus::ReadyForRelease:
        return Wall::Ready;
    case CarStatus::Released:
    case CarStatus::Withdrawn:
        return Wall::NoBand;
    case CarStatus::Held:
        // Where only second persons are still owed, the card says what the others do instead of
        // the hatch, and that it awaits them once they can begin.
        if (card.isHeldBySafety(now))
            return Wall::Held;
        if (any([](const CardLine& line) { return line.safety && canGoOn(line); }))
            return Wall::AwaitingCheck;
        break;
    case CarStatus::Arriving:
    case CarStatus::InPrep:
        break;
    }
    if (any(inState(OperationState::InHand)))
        return Wall::InHand;
    if (any(inState(OperationState::AwaitingCheck)))
        return Wall::AwaitingCheck;
    if (any(inState(OperationState::Paused)))
        return Wall::Paused;
    if (any(inState(OperationState::Blocked)) && !any(canGoOn))
        return Wall::Blocked;
    return Wall::Waiting;
}

bool isOfSkill(const CardLine& line, Skill skill)
{
    return line.skill == skill || (skill == Skill::Checks && line.check);
}

bool canGoOn(const CardLine& line)
{
    return (line.state == OperationState::Waiting && !line.notYet) ||
           line.state == OperationState::Paused || line.state == OperationState::AwaitingCheck;
}

bool waitsFor(const CardLine& line, Skill skill)
{
    return canGoOn(line) && isOfSkill(line, skill) &&
           (line.state != OperationState::AwaitingCheck || !line.check || skill == Skill::Checks);
}

bool isOfPerson(const CardLine& line, PersonId person)
{
    return line.assigned == person || std::ranges::find(line.people, person) != line.people.end();
}

int minutesOn(const CardLine& line, Moment now)
{
    const int running = line.runningSince.isNull() ? 0 : minutesBetween(line.runningSince, now);
    return line.minutesBefore + running;
}

bool isForgotten(const CardLine& line, const HouseRules& rules, Moment now)
{
    return isOverlong(line.runningSince, now, line.usual, rules);
}

const CardLine* inHandOn(const CarCard& card, const HouseRules& rules, Moment now)
{
    const CardLine* longest = nullptr;
    const CardLine* forgotten = nullptr;
    const auto isOlder = [](const CardLine& line, const CardLine* than) {
        return than == nullptr || line.runningSince < than->runningSince;
    };
    for (const CardLine& line : card.outstanding) {
        if (line.people.empty())
            continue;
        if (isOlder(line, longest))
            longest = &line;
        if (isOlder(line, forgotten) && isForgotten(line, rules, now))
            forgotten = &line;
    }
    return forgotten == nullptr ? longest : forgotten;
}

std::vector<PersonId> whoWorksOn(const CarCard& card)
{
    std::vector<PersonId> people;
    for (const CardLine& line : card.outstanding)
        for (const PersonId person : line.people)
            if (std::ranges::find(people, person) == people.end())
                people.push_back(person);
    return people;
}

QString stillWorkingWords(Moment since, const TimeWords& times, Moment now)
{
    return say("runs since %1: still working?").arg(times.shortly(since, now));
}

bool naturallyLess(const QString& a, const QString& b)
{
    qsizetype i = 0;
    qsizetype j = 0;
    const auto number = [](const QString& text, qsizetype& at) {
        const qsizetype from = at;
        while (at < text.size() && text.at(at).isDigit())
            ++at;
        return text.mid(from, at - from).toLongLong();
    };
    while (i < a.size() && j < b.size()) {
        if (a.at(i).isDigit() && b.at(j).isDigit()) {
            const qlonglong x = number(a, i);
            const qlonglong y = number(b, j);
            if (x != y)
                return x < y;
        } else if (a.at(i).toCaseFolded() != b.at(j).toCaseFolded()) {
            return a.at(i).toCaseFolded() < b.at(j).toCaseFolded();
        } else {
            ++i;
            ++j;
        }
    }
    return a.size() - i < b.size() - j;
}

} // namespace ramplight
