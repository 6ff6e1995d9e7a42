// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "access/secret.h"
#include "access/signin.h"
#include "domain/carcard.h"
#include "evidence/evidenceerror.h"
#include "evidence/photovault.h"
#include "kiosk/answer.h"
#include "kiosk/spokenfiles.h"

#include <QImage>
#include <QObject>

#include <optional>
#include <vector>

namespace ramplight {

/// A photo that was taken in, and what may be wrong with it.
struct PhotoTaken
{
    StoredPhoto photo;
    QStringList warnings; ///< in words; it is kept all the same
};

/// A file in the drop folder.
struct DroppedFile
{
    QString path;
    QString name;
    Moment modified;

    friend bool operator==(const DroppedFile&, const DroppedFile&) = default;
};

/// What an appraisal file brought.
struct ImportReport
{
    QStringList stockNumbers;
    bool alreadyKnown = false; ///< the same file was taken in before; nothing changed
};
/// Why a file was not taken in: each fault names line, field and what was expected.
struct ImportFaults
{
    QStringList faults;
};

/// A record that was made.
struct RecordPages
{
    QByteArray pdf;
    QString fingerprint;
    std::vector<QImage> pages; ///< for the screen
};

/// What the view models may ask of the rest of the program: every call returns at once, the work
/// runs on the storage thread or on a pool. Made in main.cpp; tests bring their own. GUI thread.
class Desk : public QObject
{
    Q_OBJECT

public:
    using QObject::QObject;

    // ---- the workshop
    [[nodiscard]] virtual Answer<CarOutcome> run(const CarRequest& request) = 0;
    [[nodiscard]] virtual Answer<SiteOutcome> run(const SiteRequest& request) = 0;
    [[nodiscard]] virtual Answer<CarOutcome> mergeDuplicate(const CommandId& id, PersonId actor,
                                                            const CarId& keep, const CarId& second,
                                                            const QString& reason) = 0;
    /// See Workshop::signTogether.
    [[nodiscard]] virtual Answer<std::vector<CarOutcome>>
    signTogether(const TogetherRequest& request) = 0;
    /// See Workshop::stopAllWork: null stops all now.
    [[nodiscard]] virtual Answer<int> stopAllWork(const CommandId& id, Moment shiftEnd) = 0;

    // ---- reading
    [[nodiscard]] virtual Answer<SiteState> site() = 0;
    [[nodiscard]] virtual Answer<std::vector<SiteEnvelope>> siteHistory() = 0;
    [[nodiscard]] virtual Answer<std::vector<CarCard>> openCards() = 0;
    /// The latest first, at most so many.
    [[nodiscard]] virtual Answer<std::vector<CarCard>> releasedCards(int most) = 0;
    [[nodiscard]] virtual Answer<CarState> car(const CarId& id) = 0;
    [[nodiscard]] virtual Answer<std::vector<CarEnvelope>> history(const CarId& id) = 0;
    [[nodiscard]] virtual Answer<std::optional<CarId>>
    carByStockNumber(const QString& stockNumber) = 0;

    // ---- people
    [[nodiscard]] virtual QFuture<tl::expected<SignInAnswer, AccessError>> tryPin(PersonId person,
                                                                                  Secret pin) = 0;
    [[nodiscard]] virtual QFuture<tl::expected<SignInAnswer, AccessError>>
    signInStanding(PersonId person) = 0;
    [[nodiscard]] virtual QFuture<tl::expected<void, AccessError>> setPin(PersonId person,
                                                                          Secret pin) = 0;
    [[nodiscard]] virtual QFuture<tl::expected<std::optional<PersonId>, AccessError>>
    personOfBadge(const QString& code) = 0;
    /// An empty code takes the badge away.
    [[nodiscard]] virtual QFuture<tl::expected<void, AccessError>>
    setBadge(PersonId person, const QString& code) = 0;

    // ---- photos
    [[nodiscard]] virtual QFuture<tl::expected<PhotoTaken, EvidenceError>>
    keepPhotoFile(const QString& path) = 0;
    [[nodiscard]] virtual QFuture<tl::expected<PhotoTaken, EvidenceError>>
    keepPhoto(const QImage& frame) = 0;
    /// A file's bytes, from whoever sent them.
    [[nodiscard]] virtual QFuture<tl::expected<PhotoTaken, EvidenceError>>
    keepPhotoBytes(const QByteArray& bytes) = 0;
    [[nodiscard]] virtual QFuture<tl::expected<std::vector<DroppedFile>, EvidenceError>>
    droppedFiles() = 0;

    // ---- spoken walk-rounds; every error is words for a person
    /// What lies in the drop folder and on the sticks, newest first.
    [[nodiscard]] virtual QFuture<tl::expected<std::vector<WaitingTranscript>, QString>>
    transcripts() = 0;
    /// Keeps the words and puts the drafts on the car.
    [[nodiscard]] virtual QFuture<tl::expected<TranscriptTaken, QString>>
    readTranscript(const QString& path, const CarId& car, PersonId actor) = 0;
    [[nodiscard]] virtual QFuture<tl::expected<SpokenText, QString>>
    spokenText(const SpokenRound& round) = 0;
    /// Writes down what a reviewer made of a draft (nothing: it was dropped), for whoever looks
    /// after the reader.
    [[nodiscard]] virtual QFuture<tl::expected<void, QString>>
    keepCorrection(const SpokenRound& round, int draft,
                   const std::optional<FindingData>& corrected) = 0;

    // ---- files
    [[nodiscard]] virtual QFuture<tl::expected<ImportReport, ImportFaults>>
    importAppraisal(const QString& path, PersonId actor) = 0;
    /// Files in the drop folder that may be a house's or a catalogue.
    [[nodiscard]] virtual QFuture<tl::expected<std::vector<DroppedFile>, EvidenceError>>
    houseFiles() = 0;
    /// Writes the house and its catalogue into the drop folder; the value says where.
    [[nodiscard]] virtual QFuture<tl::expected<QString, QString>> exportHouse() = 0;
    /// Takes a house or a catalogue in, all of it or nothing. Error: each fault in words.
    [[nodiscard]] virtual QFuture<tl::expected<void, QStringList>> importHouse(const QString& path,
                                                                               PersonId actor) = 0;
    /// The error is words for a person.
    [[nodiscard]] virtual QFuture<tl::expected<RecordPages, QString>>
    makeRecord(const CarId& car) = 0;
    /// Writes what makeRecord gave; the value is the path that was written.
    [[nodiscard]] virtual QFuture<tl::expected<QString, QString>>
    saveRecord(const QString& stockNumber, const QByteArray& pdf) = 0;
    [[nodiscard]] virtual QFuture<tl::expected<void, QString>>
    printRecord(const QByteArray& pdf) = 0;
    [[nodiscard]] virtual bool hasPrinter() const = 0;

signals:
    /// A car changed, from this program or another one: read the cards again.
    void carsChanged();
    /// People, bays or house rules changed.
    void siteChanged();
    /// Words: what happened, what was kept, what to do. Empty: the store answers again.
    void storeFault(const QString& words);
};

} // namespace ramplight
