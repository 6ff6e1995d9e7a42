// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// What the walk-round shows. What it records is in walkroundasks.cpp.
#include "kiosk/walkround.h"

#include "domain/suggest.h"
#include "domain/worktotals.h"
#include "kiosk/carwords.h"
#include "kiosk/kioskenums.h"

#include <algorithm>

namespace ramplight {

namespace {

constexpr int newsMinutes = 10;

QString titleOf(WalkView view)
{
    switch (view) {
    case WalkView::Body:
        return WalkRound::tr("Body");
    case WalkView::Wheels:
        return WalkRound::tr("Wheels, tyres");
    case WalkView::Glass:
        return WalkRound::tr("Glass, lamps");
    case WalkView::Inside:
        return WalkRound::tr("Inside");
    case WalkView::Systems:
        return WalkRound::tr("Bonnet, systems");
    }
    return {};
}

/// A place without its side, for where the side is plain: "front door".
QString titleOf(const PlaceInfo& place, const HouseRules& rules)
{
    PlaceId stem = place.id;
    if (place.side != Side::None)
        stem.text = stem.text.left(stem.text.lastIndexOf(u'-'));
    return sentence(placeWords(stem, rules));
}

/// What fits beside each other at the thumb; the others are a touch away.
constexpr std::size_t chipsInSight = 8;

template <class E>
std::vector<ChoiceRow> choiceRows(const std::vector<E>& likely)
{
    std::vector<ChoiceRow> rows;
    for (const E value : likely)
        rows.push_back(
            {nameOf(value), sentence(words(value)),
             rows.size() < chipsInSight ? QStringLiteral("likely") : QStringLiteral("more"),
             false});
    for (const auto& [value, name] : Names<E>::table)
        if (std::ranges::find(likely, value) == likely.end())
            rows.push_back(
                {QString::fromLatin1(name), sentence(words(value)), QStringLiteral("more"), false});
    return rows;
}

int countOn(const std::vector<const PlaceInfo*>& places, Side side)
{
    return static_cast<int>(std::ranges::count(places, side, &PlaceInfo::side));
}

} // namespace

WalkRound::WalkRound(CarView& car, Session& session, SiteBook& book, Ticker& ticker,
                     const Catalogue& catalogue, QObject* parent)
    : QObject(parent)
    , m_car(car)
    , m_session(session)
    , m_book(book)
    , m_ticker(ticker)
    , m_catalogue(catalogue)
    , m_conditions(false)
    , m_remedies(false)
    , m_draft(book)
    , m_tyres(car, book, ticker, catalogue)
    , m_paint(car, book, catalogue)
{
    connect(&m_car, &CarView::changed, this, &WalkRound::rebuild);
    connect(&m_car, &CarView::renumbered, this, &WalkRound::renumber);
    connect(&m_draft, &FindingDraft::changed, this, &WalkRound::placeChanged);
    connect(&m_tyres, &TyrePad::complete, this, &WalkRound::recordTyre);
    connect(&m_ask, &Ask::changed, this, [this] {
        if (!m_ask.busy() && !m_ask.refused())
            putNext();
    });
    rebuild();
}

bool WalkRound::isRead() const
{
    return m_car.loaded() && m_car.id() == m_id;
}

// ---- the drawing -----------------------------------------------------------------------------

void WalkRound::setView(const QString& view)
{
    const auto known = fromName<WalkView>(view);
    if (!known || *known == m_view)
        return;
    m_view = *known;
    touch({});
    rebuildPlaces();
    emit viewChanged();
    emit changed();
}

QString WalkRound::drawing() const
{
    return drawingOf(m_view);
}

QString WalkRound::drawingOf(WalkView view) const
{
    switch (view) {
    case WalkView::Body:
    case WalkView::Glass:
        return m_car.shape();
    case WalkView::Wheels:
        return QStringLiteral("wheels");
    case WalkView::Inside:
        return m_book.rules().trafficSide == TrafficSide::Left ? QStringLiteral("cabin-right")
                                                               : QStringLiteral("cabin-left");
    case WalkView::Systems:
        break;
    }
    return QStringLiteral("systems");
}

bool WalkRound::opened() const
{
    return m_view == WalkView::Body || m_view == WalkView::Glass;
}

QStringList WalkRound::among() const
{
    QStringList places;
    if (m_view == WalkView::Glass)
        for (const PlaceInfo* place : placesIn(m_view, m_car.car()))
            places.append(place->id.text);
    return places;
}

int WalkRound::left() const
{
    int count = 0;
    for (const auto& [view, name] : Names<WalkView>::table)
        count += static_cast<int>(unseenIn(view, m_car.car()).size());
    return count;
}

int WalkRound::leftHere() const
{
    return static_cast<int>(unseenIn(m_view, m_car.car()).size());
}

int WalkRound::leftOnLeft() const
{
    return countOn(unseenIn(m_view, m_car.car()), Side::Left);
}

int WalkRound::leftOnRight() const
{
    return countOn(unseenIn(m_view, m_car.car()), Side::Right);
}

QString WalkRound::leftSideWords() const
{
    const HouseRules& rules = m_book.rules();
    if (rules.sideWords == SideWords::LeftRight)
        return tr("Left side");
    return rules.trafficSide == TrafficSide::Left ? tr("Near side") : tr("Off side");
}

QString WalkRound::rightSideWords() const
{
    const HouseRules& rules = m_book.rules();
    if (rules.sideWords == SideWords::LeftRight)
        return tr("Right side");
    return rules.trafficSide == TrafficSide::Left ? tr("Off side") : tr("Near side");
}

void WalkRound::rebuildPlaces()
{
    const CarState& car = m_car.car();
    std::map<PlaceId, int> marks;
    m_absent.clear();
    for (const PlaceInfo& place : allPlaces()) {
        if (!hasPlace(car, place)) {
            m_absent.append(place.id.text);
            continue;
        }
        if (!car.seen.contains(place.id))
            marks[place.id] = Wall::NotLookedAt;
    }
    for (const auto& [id, finding] : car.findings)
        if (finding.stands())
            marks[finding.data().place] = Wall::Outstanding;
    // What is closed already stays so: something may be found again long after the appraisal.
    if (isRead())
        for (const MarkedPlace& marked : cardOf(car, m_book.rules()).marks)
            if (marked.mark == PlaceMark::Closed)
                marks[marked.place] = Wall::Done;
    m_marks.clear();
    const QStringList shown = among();
    for (const auto& [place, mark] : marks)
        if (shown.isEmpty() || shown.contains(place.text))
            m_marks.insert(place.text, mark);

    std::vector<WalkViewRow> views;
    for (const auto& [view, name] : Names<WalkView>::table)
        views.push_back({QString::fromLatin1(name), titleOf(view),
                         static_cast<int>(placesIn(view, car).size()),
                         static_cast<int>(unseenIn(view, car).size()), view == m_view});
    m_views.setRows(std::move(views));

    std::vector<WalkPlaceRow> places;
    const auto fieldOf = [&](WalkPlaceRow& row, Side side, int sign) {
        std::vector<PlaceId> fields = fieldsBeside(m_view, side);
        std::erase_if(fields, [&](const PlaceId& id) { return !hasPlace(car, *placeInfo(id)); });
        const auto at = std::ranges::find(fields, PlaceId{row.placeId});
        if (at == fields.end())
            return;
        row.side = sign;
        row.order = static_cast<int>(at - fields.begin());
        row.fields = static_cast<int>(fields.size());
    };
    for (const PlaceInfo* place : placesIn(m_view, car)) {
        WalkPlaceRow row;
        row.placeId = place->id.text;
        row.title = titleOf(*place, m_book.rules());
        const auto mark = marks.find(place->id);
        row.mark = mark == marks.end() ? static_cast<int>(Wall::Plain) : mark->second;
        row.chosen = place->id == m_place;
        fieldOf(row, Side::Left, -1);
        fieldOf(row, Side::Right, 1);
        places.push_back(row);
    }
    m_places.setRows(std::move(places));

    const auto findingRow = [&](FindingId id, const Finding& finding) {
        const FindingVersion& last = finding.versions.back();
        return WalkFindingRow{
            id.value, last.data.place.text, sentence(findingWords(last.data, m_book.rules())),
            QStringLiteral("%1, %2").arg(m_book.nameOf(last.by),
                                         m_book.times().shortly(last.at, m_ticker.now()))};
    };
    std::vector<WalkFindingRow> here;
    for (const auto& [id, finding] : car.findings)
        if (finding.stands() && finding.data().place == m_place)
            here.push_back(findingRow(id, finding));
    m_here.setRows(std::move(here));

    std::vector<WalkFindingRow> found;
    for (const auto& [id, finding] : car.findings)
        if (finding.stands())
            found.push_back(findingRow(id, finding));
    std::ranges::reverse(found);
    m_found.setRows(std::move(found));
}

// ---- the place -------------------------------------------------------------------------------

QString WalkRound::placeWords() const
{
    return m_place.isEmpty() ? QString() : sentence(ramplight::placeWords(m_place, m_book.rules()));
}

QString WalkRound::otherPlace() const
{
    const PlaceInfo* info = placeInfo(m_place);
    if (info == nullptr)
        return {};
    if (info->kind == PlaceKind::Wheel)
        return tyreOf(m_place).text;
    return info->kind == PlaceKind::Tyre ? wheelOf(m_place).text : QString();
}

QString WalkRound::otherPlaceWords() const
{
    const PlaceInfo* info = placeInfo(m_place);
    if (otherPlace().isEmpty())
        return {};
    return info->kind == PlaceKind::Wheel ? tr("No, the tyre") : tr("No, the wheel");
}

bool WalkRound::canBeSound() const
{
    return !m_place.isEmpty() && finishOffer().shown && m_here.count() == 0;
}

QString WalkRound::sameWords() const
{
    if (!m_same || m_place.isEmpty() || conditionSaid())
        return {};
    const std::vector<Condition> usual = usualConditions(m_catalogue, m_place);
    if (std::ranges::find(usual, m_same->condition) == usual.end())
        return {};
    QStringList said{words(m_same->condition)};
    if (m_same->severity)
        said.append(words(*m_same->severity));
    for (const Remedy remedy : m_same->remedies)
        said.append(words(remedy));
    return tr("Same again: %1").arg(said.join(QStringLiteral(", ")));
}

void WalkRound::touch(const QString& placeId)
{
    m_place = placeInfo({placeId}) != nullptr ? PlaceId{placeId} : PlaceId{};
    m_draft.clear();
    if (!m_place.isEmpty())
        m_draft.choosePlace(m_place.text);
    m_paint.begin(m_place);
    offerConditions();
    rebuildPlaces();
    emit placeChanged();
    emit changed();
}

void WalkRound::offerConditions()
{
    m_conditions.clear();
    m_conditions.offer(m_place.isEmpty() ? std::vector<ChoiceRow>()
                                         : choiceRows(usualConditions(m_catalogue, m_place)));
    offerRemedies();
}

void WalkRound::offerRemedies()
{
    m_remedies.clear();
    const auto condition = fromName<Condition>(m_conditions.current());
    m_remedies.offer(
        condition ? choiceRows(usualRemedies(m_catalogue, m_car.car().facts, m_place, *condition,
                                             fromName<Severity>(m_draft.severities()->current())))
                  : std::vector<ChoiceRow>());
}

void WalkRound::sayCondition(const QString& condition)
{
    m_conditions.setChosen({condition});
    m_draft.conditions()->setChosen({condition});
    offerRemedies();
    emit placeChanged();
}

void WalkRound::saySeverity(const QString& severity)
{
    m_draft.severities()->setChosen({severity});
    offerRemedies();
    emit placeChanged();
}

// ---- what was recorded -----------------------------------------------------------------------

// One that was kept while the server was away may have another number there: a photo must not go
// to what somebody else found.
const Finding* WalkRound::last() const
{
    const Finding* finding = m_car.car().finding(m_last);
    return finding != nullptr && finding->stands() && finding->versions.front().data == m_lastData
               ? finding
               : nullptr;
}

int WalkRound::lastFinding() const
{
    return last() != nullptr ? m_last.value : 0;
}

QString WalkRound::lastWords() const
{
    const Finding* finding = last();
    return finding != nullptr ? sentence(findingWords(finding->data(), m_book.rules())) : QString();
}

QString WalkRound::newsWords() const
{
    const FindingVersion* newest = nullptr;
    for (const auto& [id, finding] : m_car.car().findings) {
        const FindingVersion& last = finding.versions.back();
        if (last.by != m_session.person() && last.stands &&
            (newest == nullptr || newest->at.ms <= last.at.ms))
            newest = &last;
    }
    if (newest == nullptr || minutesBetween(newest->at, m_ticker.now()) > newsMinutes)
        return {};
    return tr("%1 just recorded: %2")
        .arg(m_book.nameOf(newest->by), findingWords(newest->data, m_book.rules()));
}

// ---- what comes out --------------------------------------------------------------------------

void WalkRound::rebuildWork()
{
    const CarState& car = m_car.car();
    const std::vector<Prospect> work = openWork(car);
    std::vector<WalkWorkRow> rows;
    for (const Prospect& each : work) {
        WalkWorkRow row;
        row.operationId = each.operation.value;
        const Operation* operation = car.operation(each.operation);
        row.title = operationTitle(operation->spec, each.place, m_book.rules());
        row.placeId = each.place.text;
        QStringList answers;
        for (const FindingId id : each.answers)
            if (const Finding* finding = car.finding(id))
                answers.append(findingWords(finding->data(), m_book.rules()));
        row.whyWords = answers.isEmpty() ? whyWords(car, *operation, m_book.rules())
                                         : answers.join(QStringLiteral("; "));
        row.minutesWords = ramplight::minutesWords(each.minutes.usual);
        row.safety = each.safety;
        row.fresh =
            last() != nullptr && std::ranges::find(each.answers, m_last) != each.answers.end();
        rows.push_back(row);
    }
    // What came last is what one looks for; what every car gets stands at the end, in its order.
    std::ranges::reverse(rows);
    const auto isBaseline = [&](const WalkWorkRow& row) {
        return car.operation(OperationId{row.operationId})->origin == Origin::Baseline;
    };
    const auto baseline = std::ranges::stable_partition(
        rows, [&](const WalkWorkRow& row) { return !isBaseline(row); });
    std::ranges::reverse(baseline);
    m_work.setRows(std::move(rows));

    const WorkTotals totals = totalsOf(work);
    std::vector<WalkSkillRow> skills;
    for (const SkillMinutes& skill : totals.skills)
        skills.push_back({nameOf(skill.skill), sentence(words(skill.skill)),
                          ramplight::minutesWords(skill.usual)});
    m_skills.setRows(std::move(skills));
    m_minutesWords = ramplight::minutesWords(totals.minutes);
    const QString entered = QLocale::c().toString(totals.materialMinor / 100.0, 'f', 2);
    m_materialWords =
        totals.withoutMaterial == 0 ? entered
        : totals.materialMinor == 0
            ? tr("not entered")
            : tr("%1, not entered for %2 operations").arg(entered).arg(totals.withoutMaterial);
}

int WalkRound::findingCount() const
{
    return static_cast<int>(std::ranges::count_if(
        m_car.car().findings, [](const auto& entry) { return entry.second.stands(); }));
}

// ---- the end ---------------------------------------------------------------------------------

Offer WalkRound::finishOffer() const
{
    Offer offer = m_car.finishAppraisalOffer();
    offer.shown = offer.shown && m_during.isNull();
    return offer;
}

QStringList WalkRound::leftLines() const
{
    QStringList lines;
    for (const auto& [view, name] : Names<WalkView>::table) {
        QStringList places;
        for (const PlaceInfo* place : unseenIn(view, m_car.car()))
            places.append(ramplight::placeWords(place->id, m_book.rules()));
        constexpr qsizetype named = 6;
        if (places.size() > named)
            places = places.mid(0, named) + QStringList{tr("%1 more").arg(places.size() - named)};
        if (!places.isEmpty())
            lines.append(
                QStringLiteral("%1: %2").arg(titleOf(view), places.join(QStringLiteral(", "))));
    }
    return lines;
}

QString WalkRound::holdWords() const
{
    QStringList lines;
    for (const SafetyPlace& place : notLookedAt(m_car.car()))
        lines.append(ramplight::placeWords(place.place, m_book.rules()));
    return lines.join(QStringLiteral(", "));
}

void WalkRound::rebuild()
{
    rebuildPlaces();
    rebuildWork();
    m_tyres.rebuild();
    m_paint.rebuild();
    emit changed();
    emit placeChanged();
    emit viewChanged();
}

} // namespace ramplight
