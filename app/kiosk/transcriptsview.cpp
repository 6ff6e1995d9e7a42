// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/transcriptsview.h"

#include "domain/reviewing.h"
#include "kiosk/carwords.h"

#include <algorithm>

namespace ramplight {

namespace {

constexpr std::array spokenCarColumns{
    Column<SpokenCarRow>{"carId", cell<&SpokenCarRow::carId>},
    Column<SpokenCarRow>{"stockNumber", cell<&SpokenCarRow::stockNumber>},
    Column<SpokenCarRow>{"registration", cell<&SpokenCarRow::registration>},
    Column<SpokenCarRow>{"makeModel", cell<&SpokenCarRow::makeModel>},
    Column<SpokenCarRow>{"whereWords", cell<&SpokenCarRow::whereWords>},
    Column<SpokenCarRow>{"drafts", cell<&SpokenCarRow::drafts>},
};

constexpr std::array fileColumns{
    Column<TranscriptRow>{"path", cell<&TranscriptRow::path>},
    Column<TranscriptRow>{"name", cell<&TranscriptRow::name>},
    Column<TranscriptRow>{"aboutWords", cell<&TranscriptRow::aboutWords>},
    Column<TranscriptRow>{"fault", cell<&TranscriptRow::fault>},
    Column<TranscriptRow>{"damage", cell<&TranscriptRow::damage>},
    Column<TranscriptRow>{"carId", cell<&TranscriptRow::carId>},
    Column<TranscriptRow>{"carWords", cell<&TranscriptRow::carWords>},
};

QString lengthOf(const WaitingTranscript& file)
{
    if (file.seconds >= 0)
        return TranscriptsView::tr("%1 long").arg(recordingWords(file.seconds));
    return file.wordCount > 0 ? TranscriptsView::tr("%1 words").arg(file.wordCount) : QString();
}

/// The first of what is damaged, and how much more there is.
QString damageOf(const QStringList& warnings)
{
    if (warnings.isEmpty())
        return {};
    return warnings.size() == 1
               ? TranscriptsView::tr("Damaged, read all the same: %1.").arg(warnings.front())
               : TranscriptsView::tr("Damaged in %1 places, read all the same: %2, ...")
                     .arg(warnings.size())
                     .arg(warnings.front());
}

} // namespace

SpokenCars::SpokenCars(QObject* parent)
    : ListBase(std::make_unique<RowTable<SpokenCarRow>>(spokenCarColumns), parent)
{
}

void SpokenCars::setRows(std::vector<SpokenCarRow> rows)
{
    replace(std::move(rows));
}

TranscriptFiles::TranscriptFiles(QObject* parent)
    : ListBase(std::make_unique<RowTable<TranscriptRow>>(fileColumns), parent)
{
}

void TranscriptFiles::setRows(std::vector<TranscriptRow> rows)
{
    replace(std::move(rows));
}

const std::vector<TranscriptRow>& TranscriptFiles::rows() const
{
    return stored<TranscriptRow>();
}

TranscriptsView::TranscriptsView(Desk& desk, Session& session, SiteBook& book, CardFeed& feed,
                                 Ticker& ticker, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_session(session)
    , m_book(book)
    , m_feed(feed)
    , m_ticker(ticker)
{
    connect(&m_feed, &CardFeed::changed, this, &TranscriptsView::rebuildCars);
    connect(&m_book, &SiteBook::changed, this, &TranscriptsView::rebuildCars);
}

void TranscriptsView::setSearch(const QString& words)
{
    if (m_search == words)
        return;
    m_search = words;
    rebuildCars();
}

QString TranscriptsView::waitingWords() const
{
    const auto& cards = m_feed.cards();
    int drafts = 0;
    for (const CarCard& card : cards)
        drafts += card.openDrafts;
    const auto cars = std::ranges::count_if(cards, [](const auto& c) { return c.openDrafts > 0; });
    if (cars == 0)
        return {};
    return cars == 1 ? tr("Spoken walk-round of %1: %2 to review")
                           .arg(std::ranges::find_if(cards,
                                                     [](const auto& c) { return c.openDrafts > 0; })
                                    ->identity.stockNumber)
                           .arg(drafts)
                     : tr("Spoken walk-rounds of %1 cars: %2 to review").arg(cars).arg(drafts);
}

void TranscriptsView::begin(const QString& carId)
{
    m_for = CarId{carId};
    m_waiting.clear();
    m_looked = false;
    m_search.clear();
    m_ask.dismiss();
    rebuildCars();
    look();
}

void TranscriptsView::look()
{
    if (m_looking)
        return;
    m_looking = true;
    emit changed();
    whenReady(m_desk.transcripts(), this,
              [this](const tl::expected<std::vector<WaitingTranscript>, QString>& files) {
                  m_looking = false;
                  m_looked = true;
                  m_fault = files ? QString() : files.error();
                  m_waiting = files.value_or(std::vector<WaitingTranscript>());
                  rebuildFiles();
              });
}

const CarCard* TranscriptsView::carOf(const WaitingTranscript& file,
                                      const CarNumbers& numbers) const
{
    for (const std::vector<QString>& kind : numbers)
        if (const auto named = numberNamedBy(file.name, kind))
            return &m_feed.cards()[*named];
    return m_feed.card(m_for);
}

void TranscriptsView::rebuildCars()
{
    std::vector<SpokenCarRow> toReview;
    std::vector<SpokenCarRow> found;
    for (const CarCard& card : m_feed.cards()) {
        const SpokenCarRow row{card.car.text,
                               card.identity.stockNumber,
                               card.identity.registration,
                               makeModelOf(card.identity),
                               placeOf(card.bay, card.parking, m_book),
                               card.openDrafts};
        if (card.openDrafts > 0)
            toReview.push_back(row);
        if (answersTo(card.identity, m_search))
            found.push_back(row);
    }
    std::ranges::sort(found, {}, &SpokenCarRow::stockNumber);
    m_toReview.setRows(std::move(toReview));
    m_cars.setRows(std::move(found));
    rebuildFiles();
}

void TranscriptsView::rebuildFiles()
{
    CarNumbers numbers;
    for (const CarCard& card : m_feed.cards()) {
        numbers[0].push_back(card.identity.stockNumber);
        numbers[1].push_back(card.identity.registration);
    }
    std::vector<TranscriptRow> rows;
    for (const WaitingTranscript& file : m_waiting) {
        const CarCard* car = carOf(file, numbers);
        rows.push_back(
            {file.path, file.name,
             dotted({m_book.times().shortly(file.modified, m_ticker.now()), file.where,
                     lengthOf(file),
                     file.recording.isEmpty() ? QString() : tr("with its recording")}),
             file.fault, damageOf(file.warnings), car == nullptr ? QString() : car->car.text,
             car == nullptr ? QString()
                            : dotted({car->identity.stockNumber, makeModelOf(car->identity)})});
    }
    m_files.setRows(std::move(rows));
    emit changed();
}

void TranscriptsView::read(const QString& path, const QString& carId)
{
    m_session.whenSignedIn(tr("to read a spoken walk-round"), [this, path, carId](PersonId person) {
        readAs(path, CarId{carId}, person);
    });
}

void TranscriptsView::readAs(const QString& path, const CarId& car, PersonId person)
{
    const QString what = QStringLiteral("read");
    if (!m_ask.begin(what, [this, path, car, person] { readAs(path, car, person); }))
        return;
    whenReady(m_desk.readTranscript(path, car, person), this,
              [this, car](const tl::expected<TranscriptTaken, QString>& answer) {
                  if (!answer) {
                      m_ask.fail(QStringLiteral("transcript"), answer.error(), true);
                      return;
                  }
                  m_ask.succeed();
                  emit taken(car.text, answer->transcript.text, answer->known);
              });
}

void TranscriptsView::explain(const QString& name, const QString& fault)
{
    m_ask.refuse(QStringLiteral("read"), QStringLiteral("transcript"),
                 tr("%1 cannot be read: %2").arg(name, fault));
}

} // namespace ramplight
