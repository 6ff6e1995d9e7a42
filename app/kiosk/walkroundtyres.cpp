// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/walkroundtyres.h"

#include "kiosk/carwords.h"
#include "kiosk/typednumber.h"

#include <algorithm>

namespace ramplight {

namespace {

constexpr std::array tyreColumns{
    Column<WalkTyreRow>{"placeId", cell<&WalkTyreRow::placeId>},
    Column<WalkTyreRow>{"title", cell<&WalkTyreRow::title>},
    Column<WalkTyreRow>{"readings", cell<&WalkTyreRow::readings>},
    Column<WalkTyreRow>{"point", cell<&WalkTyreRow::point>},
    Column<WalkTyreRow>{"askew", cell<&WalkTyreRow::askew>},
    Column<WalkTyreRow>{"lowWords", cell<&WalkTyreRow::lowWords>},
    Column<WalkTyreRow>{"codeWords", cell<&WalkTyreRow::codeWords>},
    Column<WalkTyreRow>{"recorded", cell<&WalkTyreRow::recorded>},
};

} // namespace

WalkTyres::WalkTyres(QObject* parent)
    : ListBase(std::make_unique<RowTable<WalkTyreRow>>(tyreColumns), parent)
{
}

void WalkTyres::setRows(std::vector<WalkTyreRow> rows)
{
    replace(std::move(rows));
}

const std::vector<WalkTyreRow>& WalkTyres::rows() const
{
    return stored<WalkTyreRow>();
}

TyrePad::TyrePad(CarView& car, SiteBook& book, const Catalogue& catalogue, QObject* parent)
    : QObject(parent)
    , m_car(car)
    , m_book(book)
    , m_catalogue(catalogue)
{
    begin();
}

QString TyrePad::placeId() const
{
    return m_at < 4 * points ? m_measured.at(static_cast<std::size_t>(m_at / points)).place.text
                             : QString();
}

QString TyrePad::title() const
{
    return m_at < 4 * points ? sentence(placeWords({placeId()}, m_book.rules()))
                             : tr("All four tyres are measured");
}

QString TyrePad::pointWords() const
{
    if (m_at >= 4 * points)
        return {};
    switch (m_at % points) {
    case 0:
        return tr("inner");
    case 1:
        return tr("centre");
    default:
        return tr("outer");
    }
}

QString TyrePad::shown() const
{
    return m_whole ? QStringLiteral("%1.").arg(*m_whole) : QString();
}

int TyrePad::taken() const
{
    int count = 0;
    for (const Tyre& tyre : m_measured)
        count += static_cast<int>(std::ranges::count_if(
            tyre.tenths, [](const auto& tenths) { return tenths.has_value(); }));
    return count;
}

QString TyrePad::limitWords() const
{
    return tr("at least %1 mm").arg(typedText(m_catalogue.tread.minTenthsMm, 1));
}

void TyrePad::strike(int digit)
{
    if (m_at >= 4 * points || digit < 0 || digit > 9)
        return;
    if (!m_whole) {
        m_whole = digit;
        rebuild();
        return;
    }
    tyre().tenths.at(static_cast<std::size_t>(m_at % points)) = *m_whole * 10 + digit;
    m_whole.reset();
    goOn();
}

void TyrePad::goOn()
{
    const Tyre measured = tyre();
    const bool whole =
        std::ranges::all_of(measured.tenths, [](const auto& tenths) { return tenths.has_value(); });
    ++m_at;
    // Across a tyre that is measured again, all three readings are taken again.
    const bool last = m_at % points == 0;
    // What is already there is not asked for a second time.
    while (last && m_at < 4 * points && tyre().tenths.front())
        m_at += points;
    rebuild();
    if (whole && last)
        emit complete(measured.place,
                      {*measured.tenths.at(0), *measured.tenths.at(1), *measured.tenths.at(2)});
}

void TyrePad::goBack()
{
    if (m_whole) {
        m_whole.reset();
    } else if (m_at > 0) {
        --m_at;
        tyre().tenths.at(static_cast<std::size_t>(m_at % points)).reset();
    }
    rebuild();
}

void TyrePad::goTo(const QString& placeId)
{
    for (std::size_t at = 0; at < m_measured.size(); ++at)
        if (m_measured.at(at).place.text == placeId) {
            m_at = static_cast<int>(at) * points;
            m_measured.at(at).tenths = {};
            m_whole.reset();
        }
    rebuild();
}

void TyrePad::begin()
{
    // Along one side and back along the other, as one walks.
    static const std::array<PlaceId, 4> way{
        PlaceId{QStringLiteral("tyre-front-left")}, PlaceId{QStringLiteral("tyre-rear-left")},
        PlaceId{QStringLiteral("tyre-rear-right")}, PlaceId{QStringLiteral("tyre-front-right")}};
    for (std::size_t at = 0; at < way.size(); ++at) {
        m_measured.at(at) = {way.at(at), {}};
        if (const auto known = m_car.car().treads.find(way.at(at));
            known != m_car.car().treads.end())
            m_measured.at(at).tenths = {known->second.inner, known->second.centre,
                                        known->second.outer};
    }
    m_whole.reset();
    m_at = 0;
    while (m_at < 4 * points && tyre().tenths.front())
        m_at += points;
    rebuild();
}

void TyrePad::rebuild()
{
    std::vector<WalkTyreRow> rows;
    int first = 0;
    for (Tyre& tyre : m_measured) {
        // What somebody else measured meanwhile is taken over, unless it is being measured here.
        const auto known = m_car.car().treads.find(tyre.place);
        const bool untouched = std::ranges::none_of(
            tyre.tenths, [](const auto& tenths) { return tenths.has_value(); });
        const bool here = m_at >= first && m_at < first + points;
        if (known != m_car.car().treads.end() && untouched && !here)
            tyre.tenths = {known->second.inner, known->second.centre, known->second.outer};
        WalkTyreRow row;
        row.placeId = tyre.place.text;
        row.title = sentence(placeWords(tyre.place, m_book.rules()));
        const PlaceInfo* info = placeInfo(tyre.place);
        row.askew = info != nullptr && info->side == Side::Left;
        std::optional<int> lowest;
        for (int point = 0; point < points; ++point) {
            const auto& tenths = tyre.tenths.at(static_cast<std::size_t>(point));
            const bool typing = m_at == first + point && m_whole.has_value();
            row.readings.append(typing ? shown() : tenths ? typedText(*tenths, 1) : QString());
            if (tenths)
                lowest = std::min(lowest.value_or(*tenths), *tenths);
        }
        row.point = here ? m_at - first : -1;
        if (lowest && *lowest < m_catalogue.tread.minTenthsMm) {
            const OperationSpec* opens = m_catalogue.find(m_catalogue.tread.opens);
            row.lowWords = tr("below %1 mm: %2")
                               .arg(typedText(m_catalogue.tread.minTenthsMm, 1),
                                    opens != nullptr ? opens->title : tr("not to be sold so"));
        }
        row.recorded = known != m_car.car().treads.end() && tyre.tenths.at(0) &&
                       known->second == Tread{*tyre.tenths.at(0), tyre.tenths.at(1).value_or(-1),
                                              tyre.tenths.at(2).value_or(-1)};
        rows.push_back(row);
        first += points;
    }
    m_tyres.setRows(std::move(rows));
    emit changed();
}

} // namespace ramplight
