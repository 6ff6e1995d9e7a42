// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/ask.h"
#include "kiosk/cardfeed.h"
#include "kiosk/listbase.h"
#include "kiosk/ticker.h"

#include <QObject>
#include <QtQmlIntegration>

#include <array>
#include <vector>

namespace ramplight {

/// A car that stands on the wall.
struct SpokenCarRow
{
    QString carId;
    QString stockNumber;
    QString registration;
    QString makeModel;
    QString whereWords; ///< "bay 1 Wheels"; empty
    int drafts = 0;     ///< of spoken walk-rounds, that nobody has decided about

    [[nodiscard]] QString key() const { return carId; }
    friend bool operator==(const SpokenCarRow&, const SpokenCarRow&) = default;
};

class SpokenCars : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the transcripts")

public:
    explicit SpokenCars(QObject* parent = nullptr);
    void setRows(std::vector<SpokenCarRow> rows);
};

/// A transcript that waits.
struct TranscriptRow
{
    QString path;
    QString name;
    QString aboutWords; ///< "today 12:04 · drop folder · 14:20 long · recording beside it"
    QString fault;      ///< why it cannot be read; empty
    QString damage;     ///< what will be stepped over; empty
    QString carId;      ///< that its name tells, or the one that files are looked for; empty
    QString carWords;   ///< "K-7 · Orrel Tarn 1.2"; empty

    [[nodiscard]] QString key() const { return path; }
    friend bool operator==(const TranscriptRow&, const TranscriptRow&) = default;
};

class TranscriptFiles : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the transcripts")

public:
    explicit TranscriptFiles(QObject* parent = nullptr);
    void setRows(std::vector<TranscriptRow> rows);
    [[nodiscard]] const std::vector<TranscriptRow>& rows() const;
};

/// Spoken walk-rounds: cars whose drafts wait for somebody, and files that nobody has read yet.
/// Answers through `ask` (what = "read"); `taken` names the car whose review then begins. GUI
/// thread.
class TranscriptsView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    Q_PROPERTY(ramplight::Ask* ask READ ask CONSTANT FINAL)
    Q_PROPERTY(ramplight::SpokenCars* toReview READ toReview CONSTANT FINAL)
    Q_PROPERTY(ramplight::TranscriptFiles* files READ files CONSTANT FINAL)
    /// Cars on the wall that answer to `search`, for a file whose name tells none.
    Q_PROPERTY(ramplight::SpokenCars* cars READ cars CONSTANT FINAL)
    Q_PROPERTY(QString search READ search WRITE setSearch NOTIFY changed FINAL)
    /// Drafts that wait on all cars, in words for the wall; empty when none do.
    Q_PROPERTY(QString waitingWords READ waitingWords NOTIFY changed FINAL)
    Q_PROPERTY(bool looking READ looking NOTIFY changed FINAL)
    Q_PROPERTY(bool looked READ looked NOTIFY changed FINAL) ///< at least once since begin()
    /// Why the files cannot be listed; empty when all is well.
    Q_PROPERTY(QString fault READ fault NOTIFY changed FINAL)

public:
    TranscriptsView(Desk& desk, Session& session, SiteBook& book, CardFeed& feed, Ticker& ticker,
                    QObject* parent = nullptr);

    [[nodiscard]] Ask* ask() { return &m_ask; }
    [[nodiscard]] SpokenCars* toReview() { return &m_toReview; }
    [[nodiscard]] TranscriptFiles* files() { return &m_files; }
    [[nodiscard]] SpokenCars* cars() { return &m_cars; }
    [[nodiscard]] QString search() const { return m_search; }
    void setSearch(const QString& words);
    [[nodiscard]] QString waitingWords() const;
    [[nodiscard]] bool looking() const { return m_looking; }
    [[nodiscard]] bool looked() const { return m_looked; }
    [[nodiscard]] QString fault() const { return m_fault; }

    /// Looks for files; a car may be the one for which somebody looks. Empty: none.
    Q_INVOKABLE void begin(const QString& carId);
    Q_INVOKABLE void look();
    /// Reads a file for a car.
    Q_INVOKABLE void read(const QString& path, const QString& carId);
    /// A file that cannot be read was touched: says why.
    Q_INVOKABLE void explain(const QString& name, const QString& fault);

signals:
    void changed();
    /// known: the same words were read for this car before.
    void taken(const QString& carId, const QString& transcript, bool known);

private:
    void rebuildCars();
    void rebuildFiles();
    void readAs(const QString& path, const CarId& car, PersonId person);
    /// Stock numbers and registrations of all cars, in the order of their cards.
    using CarNumbers = std::array<std::vector<QString>, 2>;
    [[nodiscard]] const CarCard* carOf(const WaitingTranscript& file,
                                       const CarNumbers& numbers) const;

    Desk& m_desk;
    Session& m_session;
    SiteBook& m_book;
    CardFeed& m_feed;
    Ticker& m_ticker;
    Ask m_ask;
    SpokenCars m_toReview;
    SpokenCars m_cars;
    TranscriptFiles m_files;
    std::vector<WaitingTranscript> m_waiting;
    CarId m_for;
    QString m_search;
    QString m_fault;
    bool m_looking = false;
    bool m_looked = false;
};

} // namespace ramplight
