// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/walkroundtyres.h"

#include "domain/tyreconcerns.h"
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

constexpr qsizetype codeDigits = 4;

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

TyrePad::TyrePad(CarView& car, SiteBook& book, Ticker& ticker, const Catalogue& catalogue,
                 QObject* parent)
    : QObject(parent)
    , m_car(car)
    , m_book(book)
    , m_ticker(ticker)
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

QString TyrePad::window() const
{
    if (m_at >= 4 * points)
        return {};
    if (m_coding)
        return tr("made %1").arg(m_measured.at(static_cast<std::size_t>(m_at / points))
                                     .code.leftJustified(codeDigits, QChar(0x2013)));
    const QString point = m_at % points == 0   ? tr("inner")
                          : m_at % points == 1 ? tr("centre")
                                               : tr("outer");
    return QStringLiteral("%1  %2\u2013 mm")
        .arg(point, m_whole ? typing() : QStringLiteral("\u2013."));
}

QString TyrePad::codeWords() const
{
    return m_at < 4 * points ? codeWordsOf(m_measured.at(static_cast<std::size_t>(m_at / points)))
                             : QString();
}

QString TyrePad::codeWordsOf(const Tyre& tyre) const
{
    QString code = tyre.code;
    const auto known = m_car.car().tyres.find(tyre.place);
    if (code.isEmpty() && known != m_car.car().tyres.end())
        code = known->second.dateCode;
    if (code.isEmpty())
        return {};
    const auto read = readDateCode(code, today());
    if (!read)
        return code.leftJustified(codeDigits, QChar(0x2013));
    const int years = read->yearsOn(today());
    return years == 0   ? tr("%1: under a year").arg(code)
           : years == 1 ? tr("%1: 1 year").arg(code)
                        : tr("%1: %2 years").arg(code).arg(years);
}

QDate TyrePad::today() const
{
    return dayOf(m_ticker.now(), m_book.rules());
}

QString TyrePad::typing() const
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
    return tr("at least %1 mm").arg(typedText(leastTread(m_catalogue, m_book.rules()), 1));
}

void TyrePad::strike(int digit)
{
    if (m_at >= 4 * points || digit < 0 || digit > 9)
        return;
    if (m_coding) {
        strikeCode(digit);
        return;
    }
    if (!m_whole) {
        m_whole = digit;
        rebuild();
        return;
    }
    // Measured again: across the whole tyre.
    if (m_at % points == 0)
        tyre().tenths = {};
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
    const bool last = m_at % points == 0;
    // What is already there is not asked for a second time.
    while (last && m_at < 4 * points && tyre().tenths.front())
        m_at += points;
    rebuild();
    if (whole && last)
        emit complete(measured.place,
                      Tread{*measured.tenths.at(0), *measured.tenths.at(1), *measured.tenths.at(2)},
                      {});
}

void TyrePad::typeCode(bool on)
{
    m_coding = on && m_at < 4 * points;
    m_fault.clear();
    m_whole.reset();
    rebuild();
}

void TyrePad::strikeCode(int digit)
{
    const PlaceId place = tyre().place;
    QString& code = tyre().code;
    if (code.size() < codeDigits)
        code.append(QString::number(digit));
    if (code.size() < codeDigits) {
        rebuild();
        return;
    }
    // What stands there stays, to be put right.
    const QString whole = code;
    const auto read = readDateCode(whole, today());
    m_fault = read ? QString() : sentence(read.error());
    m_coding = !read;
    rebuild();
    if (read)
        emit complete(place, {}, whole);
}

void TyrePad::goBack()
{
    if (m_coding) {
        m_fault.clear();
        if (tyre().code.isEmpty())
            m_coding = false;
        tyre().code.chop(1);
    } else if (m_whole) {
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
            m_whole.reset();
            m_coding = false;
            m_fault.clear();
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
        m_measured.at(at) = {way.at(at), {}, {}};
        if (const auto known = m_car.car().treads.find(way.at(at));
            known != m_car.car().treads.end())
            m_measured.at(at).tenths = {known->second.inner, known->second.centre,
                                        known->second.outer};
    }
    m_whole.reset();
    m_coding = false;
    m_fault.clear();
    m_at = 0;
    while (m_at < 4 * points && tyre().tenths.front())
        m_at += points;
    rebuild();
}

void TyrePad::rebuild()
{
    std::vector<WalkTyreRow> rows;
    const int least = leastTread(m_catalogue, m_book.rules());
    int first = 0;
    for (Tyre& tyre : m_measured) {
        // What somebody else measured meanwhile is taken over, unless it is being measured here.
        const auto known = m_car.car().treads.find(tyre.place);
        const bool untouched = std::ranges::none_of(
            tyre.tenths, [](const auto& tenths) { return tenths.has_value(); });
        const bool here = m_at >= first && m_at < first + points;
        if (known != m_car.car().treads.end() && untouched && !here)
            tyre.tenths = {known->second.inner, known->second.centre, known->second.outer};
        if (const auto marked = m_car.car().tyres.find(tyre.place);
            marked != m_car.car().tyres.end() && marked->second.dateCode == tyre.code)
            tyre.code.clear();
        WalkTyreRow row;
        row.placeId = tyre.place.text;
        row.title = sentence(placeWords(tyre.place, m_book.rules()));
        const PlaceInfo* info = placeInfo(tyre.place);
        row.askew = info != nullptr && info->side == Side::Left;
        std::optional<int> lowest;
        for (int point = 0; point < points; ++point) {
            const auto& tenths = tyre.tenths.at(static_cast<std::size_t>(point));
            const bool typing = m_at == first + point && m_whole.has_value();
            row.readings.append(typing   ? this->typing()
                                : tenths ? typedText(*tenths, 1)
                                         : QString());
            if (tenths)
                lowest = std::min(lowest.value_or(*tenths), *tenths);
        }
        row.point = here && !m_coding ? m_at - first : -1;
        row.codeWords = codeWordsOf(tyre);
        if (lowest && *lowest < least) {
            const OperationSpec* opens = m_catalogue.find(m_catalogue.tread.opens);
            row.lowWords = tr("below %1 mm: %2")
                               .arg(typedText(least, 1),
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
