// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/findingdraft.h"

#include "domain/words.h"
#include "kiosk/carwords.h"
#include "kiosk/enumchoices.h"
#include "kiosk/typednumber.h"

namespace ramplight {

namespace {

QString groupWords(PlaceKind kind)
{
    switch (kind) {
    case PlaceKind::Panel:
    case PlaceKind::Bumper:
        return FindingDraft::tr("Body");
    case PlaceKind::Glass:
    case PlaceKind::Lamp:
        return FindingDraft::tr("Glass and lamps");
    case PlaceKind::OutsideTrim:
    case PlaceKind::Plate:
        return FindingDraft::tr("Outside trim");
    case PlaceKind::Wheel:
    case PlaceKind::Tyre:
    case PlaceKind::Brake:
        return FindingDraft::tr("Wheels, tyres, brakes");
    case PlaceKind::Interior:
    case PlaceKind::Restraint:
    case PlaceKind::Keys:
        return FindingDraft::tr("Inside");
    case PlaceKind::Underbody:
    case PlaceKind::Drivetrain:
    case PlaceKind::Steering:
    case PlaceKind::Suspension:
    case PlaceKind::Battery:
    case PlaceKind::HighVoltage:
    case PlaceKind::Electrical:
        return FindingDraft::tr("Mechanical and electrical");
    case PlaceKind::WholeCar:
        return FindingDraft::tr("The car");
    }
    return {};
}

/// Empty text is no number; anything else must be one.
std::optional<int> numberOf(const QString& text, int decimals)
{
    if (text.trimmed().isEmpty())
        return std::nullopt;
    const auto number = typedNumber(text, decimals);
    return number ? std::optional(*number) : std::nullopt;
}

} // namespace

FindingDraft::FindingDraft(SiteBook& book, QObject* parent)
    : QObject(parent)
    , m_book(book)
    , m_places(false)
    , m_conditions(false)
    , m_severities(false)
    , m_remedies(true)
{
    for (Choices* choices : {&m_places, &m_conditions, &m_severities, &m_remedies})
        connect(choices, &Choices::chosenChanged, this, &FindingDraft::changed);
    connect(&book, &SiteBook::changed, this, &FindingDraft::offerWords);
    offerWords();
}

void FindingDraft::offerWords()
{
    m_places.offer(placeChoices(m_book));
    m_conditions.offer(rowsOf<Condition>());
    m_severities.offer(rowsOf<Severity>());
    m_remedies.offer(rowsOf<Remedy>());
}

std::vector<ChoiceRow> placeChoices(const SiteBook& book)
{
    // One block for each group, in the order in which a walk-round comes to them.
    std::vector<std::pair<QString, std::vector<ChoiceRow>>> groups;
    for (const PlaceInfo& place : allPlaces()) {
        const QString group = groupWords(place.kind);
        auto found = std::ranges::find(groups, group, [](const auto& g) { return g.first; });
        if (found == groups.end())
            found = groups.insert(groups.end(), {group, {}});
        found->second.push_back(
            {place.id.text, sentence(placeWords(place.id, book.rules())), group, false});
    }
    std::vector<ChoiceRow> rows;
    for (const auto& [group, places] : groups)
        rows.insert(rows.end(), places.begin(), places.end());
    return rows;
}

void FindingDraft::set(QString& member, const QString& text)
{
    if (member == text)
        return;
    member = text;
    emit changed();
}

void FindingDraft::setCountText(const QString& text)
{
    set(m_count, text);
}

void FindingDraft::setSizeText(const QString& text)
{
    set(m_size, text);
}

void FindingDraft::setTreadText(const QString& text)
{
    set(m_tread, text);
}

void FindingDraft::setNote(const QString& note)
{
    set(m_note, note);
}

bool FindingDraft::asksTread() const
{
    const PlaceInfo* place = placeInfo({m_places.current()});
    return place != nullptr && place->kind == PlaceKind::Tyre;
}

bool FindingDraft::isComplete() const
{
    return !m_places.current().isEmpty() && !m_conditions.current().isEmpty() && fault().isEmpty();
}

FindingData FindingDraft::asFarAsKnown() const
{
    FindingData data = m_base;
    data.place = {m_places.current()};
    data.condition = fromName<Condition>(m_conditions.current()).value_or(Condition::Mark);
    data.severity = fromName<Severity>(m_severities.current());
    data.remedies.clear();
    for (const QString& remedy : m_remedies.chosen())
        if (const auto known = fromName<Remedy>(remedy))
            data.remedies.push_back(*known);
    data.count = numberOf(m_count, 0);
    data.sizeMm = numberOf(m_size, 0);
    data.treadTenthsMm = asksTread() ? numberOf(m_tread, 1) : std::nullopt;
    data.note = m_note.trimmed();
    return data;
}

QString FindingDraft::words() const
{
    return m_places.current().isEmpty() || m_conditions.current().isEmpty()
               ? QString()
               : findingWords(asFarAsKnown(), m_book.rules());
}

QString FindingDraft::fault() const
{
    const auto wrong = [](const QString& text, int decimals) {
        return text.trimmed().isEmpty() ? QString() : [&] {
            const auto number = typedNumber(text, decimals);
            return number ? QString() : number.error();
        }();
    };
    if (const QString words = wrong(m_count, 0); !words.isEmpty())
        return tr("How many: %1").arg(words);
    if (const QString words = wrong(m_size, 0); !words.isEmpty())
        return tr("Size in millimetres: %1").arg(words);
    if (asksTread())
        if (const QString words = wrong(m_tread, 1); !words.isEmpty())
            return tr("Tread in millimetres: %1").arg(words);
    return {};
}

void FindingDraft::clear()
{
    start({});
}

void FindingDraft::choosePlace(const QString& placeId)
{
    m_places.setChosen({placeId});
}

std::optional<FindingData> FindingDraft::data() const
{
    return isComplete() ? std::optional(asFarAsKnown()) : std::nullopt;
}

void FindingDraft::start(const FindingData& data)
{
    m_base = data;
    const bool blank = data.place.isEmpty();
    QStringList remedies;
    for (const Remedy remedy : data.remedies)
        remedies.append(nameOf(remedy));
    m_places.setChosen(blank ? QStringList() : QStringList{data.place.text});
    m_conditions.setChosen(blank ? QStringList() : QStringList{nameOf(data.condition)});
    m_severities.setChosen(data.severity ? QStringList{nameOf(*data.severity)} : QStringList());
    m_remedies.setChosen(remedies);
    m_count = data.count ? QString::number(*data.count) : QString();
    m_size = data.sizeMm ? QString::number(*data.sizeMm) : QString();
    m_tread = data.treadTenthsMm ? typedText(*data.treadTenthsMm, 1) : QString();
    m_note = data.note;
    emit changed();
}

} // namespace ramplight
