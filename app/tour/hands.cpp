// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "tour/hands.h"

#include "demo/plausible.h"
#include "domain/checking.h"
#include "kiosk/kioskenums.h"
#include "kiosk/typednumber.h"

#include <QQuickItem>

#include <algorithm>

namespace ramplight {

Hands::Hands(KioskApp& app, Visitor& visitor, Passing goOn, Photographing photograph, QString pin)
    : m_shell(app.shell())
    , m_visitor(visitor)
    , m_goOn(std::move(goOn))
    , m_photograph(std::move(photograph))
    , m_pin(std::move(pin))
{
}

QQuickItem* Hands::rowOf(const char* type, const char* property, const QVariant& value) const
{
    for (QQuickItem* item : m_visitor.ofType(type))
        if (item->property(property) == value)
            return item;
    return nullptr;
}

QQuickItem* Hands::fileTile() const
{
    for (QQuickItem* sheet : m_visitor.ofType("PhotoSheet"))
        for (QQuickItem* tile : m_visitor.ofType("PhotoTile"))
            if (sheet->isAncestorOf(tile))
                return tile;
    return nullptr;
}

QStringList Hands::peopleWho(const std::function<bool(const PersonRow&)>& may) const
{
    QStringList names;
    for (const PersonRow& person : m_shell.people()->rows())
        if (person.active && may(person))
            names.append(person.name);
    return names;
}

// ---- ways --------------------------------------------------------------------------------------

bool Hands::home()
{
    for (const char* back : {"Back", "Back to the wall"})
        while (m_visitor.says(QString::fromLatin1(back)))
            if (!m_visitor.tap(QString::fromLatin1(back)))
                return false;
    return m_visitor.until([this] { return m_shell.wall()->loaded(); }, QStringLiteral("the wall"));
}

bool Hands::signOut()
{
    if (!m_shell.session()->signedIn())
        return true;
    const auto chips = m_visitor.ofType("PersonChip");
    return !chips.empty() && m_visitor.tap(chips.back()) &&
           m_visitor.until([this] { return !m_shell.session()->signedIn(); },
                           QStringLiteral("signed out"));
}

bool Hands::signIn(const QString& name)
{
    if (m_shell.session()->signedIn() && m_shell.session()->name() == name)
        return true;
    return signOut() &&
           m_visitor.until([this] { return m_visitor.ofType("PersonScreen").empty(); },
                           QStringLiteral("the screen below")) &&
           m_visitor.tap(QStringLiteral("Who are you?")) && m_visitor.tap(name) &&
           m_visitor.until([this] { return !m_visitor.ofType("PinPad").empty(); },
                           QStringLiteral("the PIN pad")) &&
           m_visitor.type(m_pin) &&
           m_visitor.until([this] { return m_shell.session()->signedIn(); }, name);
}

bool Hands::showSkill(const QString& skill)
{
    return m_visitor.until([&] { return rowOf("FilterTab", "skill", skill) != nullptr; }, skill) &&
           m_visitor.tap(rowOf("FilterTab", "skill", skill));
}

bool Hands::openCar(const QString& stockNumber)
{
    return home() &&
           m_visitor.tapInList([&] { return rowOf("CarCard", "stockNumber", stockNumber); },
                               stockNumber) &&
           m_visitor.until(
               [&] {
                   return m_shell.car()->loaded() && m_shell.car()->stockNumber() == stockNumber;
               },
               stockNumber);
}

bool Hands::openOperation(int operationId)
{
    return m_visitor.tapInList([&] { return rowOf("OperationLine", "operationId", operationId); },
                               QStringLiteral("operation %1").arg(operationId)) &&
           m_visitor.until(
               [&] {
                   return m_shell.operation()->loaded() &&
                          m_shell.operation()->operationId() == operationId;
               },
               QStringLiteral("operation %1").arg(operationId));
}

// ---- what there is to do -----------------------------------------------------------------------

int Hands::nextOperation() const
{
    for (const OperationRow& row : m_shell.car()->operations()->rows())
        if (row.open && row.notYetWords.isEmpty() && row.band != Wall::Blocked)
            return row.operationId;
    return 0;
}

bool Hands::nothingHolds() const
{
    return m_shell.car()->holds()->rows().empty();
}

bool Hands::waitFor(const QString& stockNumber, int minutes)
{
    m_goOn(minutes);
    m_shell.ticker().pulse();
    return openCar(stockNumber);
}

bool Hands::checkersAreLeft() const
{
    const CarState& car = m_shell.car()->car();
    return std::ranges::all_of(car.operations, [&](const auto& entry) {
        const Operation& check = entry.second;
        return !check.isOpen() || check.spec->skill != Skill::Checks ||
               !peopleWho([&](const PersonRow& person) {
                    return person.rights.contains(nameOf(Right::Check)) &&
                           !checksOwnWork(car, check, PersonId{person.personId}, HouseRules{});
                }).isEmpty();
    });
}

QStringList Hands::whoMay(int operationId) const
{
    const Operation& operation = *m_shell.car()->car().operation(OperationId{operationId});
    const QString skill = nameOf(operation.spec->skill);
    const auto may = [&](const PersonRow& person) {
        switch (operation.spec->skill) {
        case Skill::Checks:
            return person.rights.contains(nameOf(Right::Check));
        case Skill::Office:
            return person.rights.contains(nameOf(Right::Manage));
        default:
            return person.skills.contains(skill) && person.rights.contains(nameOf(Right::Work));
        }
    };
    const auto free = [&](const PersonRow& person) {
        return person.onCarId.isEmpty() || person.onCarId == m_shell.car()->carId();
    };
    // The final check wants somebody who did none of the work: those who may check come last.
    const auto checks = [](const PersonRow& person) {
        return person.rights.contains(nameOf(Right::Check));
    };
    QStringList names;
    for (const bool isFree : {true, false})
        for (const bool mayCheck : {false, true})
            names += peopleWho([&](const PersonRow& person) {
                return may(person) && free(person) == isFree && checks(person) == mayCheck;
            });
    return names;
}

// ---- one operation -----------------------------------------------------------------------------

bool Hands::start()
{
    OperationView* view = m_shell.operation();
    if (view->myRunning())
        return true;
    const QString words = view->minutes() > 0    ? QStringLiteral("Go on with it")
                          : view->cautionsRead() ? QStringLiteral("Start")
                                                 : QStringLiteral("I have read this: start");
    return m_visitor.tap(words) &&
           m_visitor.until([view] { return view->myRunning(); }, QStringLiteral("the timer"));
}

ReadingValue Hands::measured(const ReadingRow& row)
{
    const Operation& operation =
        *m_shell.car()->car().operation(OperationId{m_shell.operation()->operationId()});
    for (const ReadingSpec& spec : operation.spec->readings)
        if (spec.key == row.readingKey)
            return demo::plausibleReading(operation, spec, PlaceId{row.placeId}, m_random);
    return {};
}

bool Hands::answer(const ReadingRow& row, const ReadingValue& value)
{
    const QString rowId = row.rowId;
    const auto taken = [&] {
        for (const ReadingRow& now : m_shell.operation()->readings()->rows())
            if (now.rowId == rowId)
                return now.hasValue;
        return false;
    };
    switch (row.input) {
    case ReadingKinds::Choice: {
        const qsizetype at = row.optionIds.indexOf(value.text);
        return m_visitor.tap(row.optionTitles.value(at)) && m_visitor.until(taken, row.title);
    }
    case ReadingKinds::Text:
        return m_visitor.type(value.text) && m_visitor.tap(QStringLiteral("enter")) &&
               m_visitor.until(taken, row.title);
    default:
        return m_visitor.type(typedText(value.number.value_or(0), row.decimals)) &&
               m_visitor.tap(QStringLiteral("Done")) && m_visitor.until(taken, row.title);
    }
}

bool Hands::openReadings()
{
    for (const QQuickItem* sheet : m_visitor.ofType("ReadingSheet"))
        if (sheet->property("shown").toBool())
            return true;
    return m_visitor.tap(QStringLiteral("Next reading"));
}

bool Hands::takeReadings()
{
    OperationView* view = m_shell.operation();
    const auto empty = [view]() -> const ReadingRow* {
        for (const ReadingRow& row : view->readings()->rows())
            if (!row.hasValue && !row.optional)
                return &row;
        return nullptr;
    };
    if (empty() == nullptr)
        return true;
    if (!openReadings())
        return false;
    // The next empty one comes by itself.
    while (const ReadingRow* row = empty()) {
        const ReadingRow asked = *row;
        if (!answer(asked, measured(asked)))
            return false;
    }
    return true;
}

bool Hands::takePhotos()
{
    const std::vector<PhotoNeedRow> needs = m_shell.operation()->photoNeeds()->rows();
    for (const PhotoNeedRow& need : needs) {
        if (need.present)
            continue;
        const auto there = [&] {
            const auto& now = m_shell.operation()->photoNeeds()->rows();
            const auto it = std::ranges::find(now, need.needId, &PhotoNeedRow::needId);
            return it != now.end() && it->present;
        };
        if (!m_photograph())
            return m_visitor.fail(QStringLiteral("the drop folder cannot be written to"));
        if (!m_visitor.tap(QStringLiteral("%1: %2").arg(need.momentWords, need.title)))
            return false;
        // The tour takes no pictures of whoever sits before this machine's camera.
        const QString folder = QStringLiteral("Folder or stick");
        if (m_visitor.says(folder) && !m_visitor.tap(folder))
            return false;
        if (!m_visitor.until([this] { return fileTile() != nullptr; },
                             QStringLiteral("a photo in the drop folder")))
            return false;
        // The newest one lies first.
        if (!m_visitor.tap(fileTile()) || !m_visitor.tap(QStringLiteral("Use this photo")) ||
            !m_visitor.until(there, need.title))
            return false;
    }
    return true;
}

bool Hands::sign()
{
    OperationView* view = m_shell.operation();
    const OperationId id{view->operationId()};
    return m_visitor.tap(view->check() ? QStringLiteral("Checked, sign")
                                       : QStringLiteral("Finish and sign")) &&
           m_visitor.until(
               [&] {
                   const Operation* now = m_shell.car()->car().operation(id);
                   return now != nullptr &&
                          (!now->isOpen() || now->state == OperationState::AwaitingCheck);
               },
               QStringLiteral("the signature")) &&
           tell(id);
}

bool Hands::tell(OperationId operation) const
{
    const Operation* signedOff = m_shell.car()->car().operation(operation);
    if (m_told && signedOff != nullptr && !signedOff->signatures.empty())
        m_told(m_shell.car()->carId(), operation, signedOff->signatures.back());
    return true;
}

bool Hands::enterFigures(const QString& stockNumber, int operationId, const QString& doer)
{
    const Operation* operation = m_shell.car()->car().operation(OperationId{operationId});
    const auto missing = [&] {
        std::vector<ReadingRow> rows;
        for (const ReadingRow& row : m_shell.operation()->readings()->rows())
            if (row.figureMissing)
                rows.push_back(row);
        return rows;
    };
    const bool needed = std::ranges::any_of(operation->spec->readings, [](const ReadingSpec& spec) {
        return spec.neededFrom || spec.kind == ReadingKind::Figure;
    });
    if (!needed)
        return true;
    if (!openOperation(operationId))
        return false;
    if (missing().empty())
        return openCar(stockNumber);
    const QStringList others = peopleWho([&](const PersonRow& person) {
        return person.name != doer && person.onCarId.isEmpty() &&
               person.rights.contains(nameOf(Right::Manage));
    });
    if (!signIn(others.value(0)))
        return false;
    for (std::vector<ReadingRow> rows = missing(); !rows.empty(); rows = missing()) {
        const ReadingRow row = rows.front();
        const auto spec = std::ranges::find(
            m_shell.car()->car().operation(OperationId{operationId})->spec->readings,
            row.readingKey, &ReadingSpec::key);
        if (!m_visitor.tap(rowOf("ReadingLine", "rowId", row.rowId)) ||
            !m_visitor.untilSays(QStringLiteral("Enter")) ||
            !m_visitor.type(typedText(demo::plausibleFigure(*spec), row.decimals)) ||
            !m_visitor.tap(QStringLiteral("Where it was looked up")) ||
            !m_visitor.type(QStringLiteral("maker's sheet")) ||
            !m_visitor.tap(QStringLiteral("enter")) ||
            !m_visitor.until([&] { return missing().size() < rows.size(); }, row.title) ||
            !m_visitor.tap(QStringLiteral("Close")))
            return false;
    }
    return openCar(stockNumber);
}

bool Hands::countersign(const QString& stockNumber, int operationId)
{
    const Operation operation = *m_shell.car()->car().operation(OperationId{operationId});
    const QStringList others = peopleWho([&](const PersonRow& person) {
        const PersonId id{person.personId};
        return person.rights.contains(nameOf(Right::Check)) && !operation.doers().contains(id) &&
               readAgainstFigureOf(operation, id) == nullptr;
    });
    return signIn(others.value(0)) && openCar(stockNumber) && openOperation(operationId) &&
           m_visitor.tap(QStringLiteral("Second signature")) &&
           m_visitor.until(
               [&] {
                   const Operation* now = m_shell.car()->car().operation(OperationId{operationId});
                   return now != nullptr && !now->isOpen();
               },
               QStringLiteral("the second signature")) &&
           tell(OperationId{operationId}) && openCar(stockNumber);
}

bool Hands::pauseOther(const QString& stockNumber)
{
    if (m_shell.myOperationId() == 0 || m_shell.myWords().startsWith(stockNumber))
        return true;
    return home() && m_visitor.tap(QStringLiteral("go on")) &&
           m_visitor.tap(QStringLiteral("Pause")) &&
           m_visitor.until([this] { return m_shell.myOperationId() == 0; },
                           QStringLiteral("the pause"));
}

bool Hands::begin(const QString& stockNumber, int operationId)
{
    const QStringList people = whoMay(operationId);
    if (!enterFigures(stockNumber, operationId, people.value(0)))
        return false;
    // Not everybody may check everything: the screen says who may.
    QString whyNot = QStringLiteral("nobody is here for operation %1").arg(operationId);
    for (const QString& doer : people) {
        if (!signIn(doer) || !pauseOther(stockNumber) || !openCar(stockNumber) ||
            !openOperation(operationId))
            return false;
        const Offer offer = m_shell.operation()->startOffer();
        if (m_shell.operation()->myRunning() || offer.can)
            return start();
        whyNot = offer.why;
    }
    return m_visitor.fail(whyNot);
}

bool Hands::finish(const QString& stockNumber, int operationId)
{
    m_goOn(m_shell.operation()->usualMinutes());
    return takeReadings() && takePhotos() && sign() && openCar(stockNumber) &&
           (stateOf(operationId) != OperationState::AwaitingCheck ||
            countersign(stockNumber, operationId));
}

bool Hands::workOff(const QString& stockNumber, int operationId)
{
    if (stateOf(operationId) == OperationState::AwaitingCheck)
        return countersign(stockNumber, operationId);
    return begin(stockNumber, operationId) && finish(stockNumber, operationId);
}

OperationState Hands::stateOf(int operationId) const
{
    const Operation* operation = m_shell.car()->car().operation(OperationId{operationId});
    return operation == nullptr ? OperationState::Closed : operation->state;
}

} // namespace ramplight
