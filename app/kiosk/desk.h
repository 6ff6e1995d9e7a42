// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "access/secret.h"
#include "access/signin.h"
#include "domain/carcard.h"
#include "domain/keptrequest.h"
#include "domain/sitebackup.h"
#include "domain/sitefacts.h"
#include "evidence/evidenceerror.h"
#include "evidence/photoalignment.h"
#include "evidence/photovault.h"
#include "kiosk/answer.h"
#include "kiosk/spokenfiles.h"
#include "printing/printport.h"

#include <QFuture>
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

/// How two kept photos lie on each other.
struct PhotoPair
{
    PhotoAlignment alignment;
    QSize before; ///< as far as their proportions matter
    QSize after;
};

/// A file in the drop folder, or on a stick.
struct DroppedFile
{
    QString path;
    QString name;
    Moment modified;
    QString stick = {}; ///< its name; empty: it is in the drop folder

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

/// A page that goes with a car, ready for printer and file.
struct PaperMade
{
    QString title;    ///< what a printer calls it
    QString fileName; ///< without a folder
    QByteArray pdf;
    QImage page; ///< for the screen
};
/// "door-RL-2041.pdf": what cannot stand in a file's name becomes a line.
[[nodiscard]] inline QString paperFileName(const QString& kind, const QString& rest)
{
    QString name = QStringLiteral("%1-%2").arg(kind, rest);
    for (QChar& c : name)
        if (!c.isLetterOrNumber() && c != QLatin1Char('-'))
            c = QLatin1Char('_');
    return name + QStringLiteral(".pdf");
}
enum class KeepAt {
    Records, ///< the workshop's folder of records
    Stick,   ///< the first stick that can be written on
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
    /// See Workshop::stopAllWork.
    [[nodiscard]] virtual Answer<int> stopAllWork(const CommandId& id, PersonId by,
                                                  Moment shiftEnd) = 0;

    // ---- reading
    [[nodiscard]] virtual Answer<SiteState> site() = 0;
    [[nodiscard]] virtual Answer<std::vector<SiteEnvelope>> siteHistory() = 0;
    [[nodiscard]] virtual Answer<std::vector<CarCard>> openCards() = 0;
    /// The latest first, at most so many.
    [[nodiscard]] virtual Answer<std::vector<CarCard>> releasedCards(int most) = 0;
    /// Over all cars that ever were here, by a part of stock number or registration, or by a whole
    /// VIN; the latest first, some dozens at most.
    [[nodiscard]] virtual Answer<std::vector<CarCard>> findCars(const QString& text) = 0;
    [[nodiscard]] virtual Answer<CarState> car(const CarId& id) = 0;
    [[nodiscard]] virtual Answer<std::vector<CarEnvelope>> history(const CarId& id) = 0;
    [[nodiscard]] virtual Answer<std::optional<CarId>>
    carByStockNumber(const QString& stockNumber) = 0;

    // ---- people
    /// Entered for that request: a right PIN lets it, of this person, be carried out though it
    /// wants the PIN for itself; also when it is sent again. No other one, and no later one.
    [[nodiscard]] virtual QFuture<tl::expected<SignInAnswer, AccessError>>
    tryPin(PersonId person, Secret pin, const CommandId& request) = 0;
    [[nodiscard]] virtual QFuture<tl::expected<SignInAnswer, AccessError>>
    signInStanding(PersonId person) = 0;
    /// The first PIN of somebody who was added.
    [[nodiscard]] virtual QFuture<tl::expected<void, AccessError>> setPin(PersonId person,
                                                                          Secret pin) = 0;
    /// SetUp or ChangeAccess, and the PIN that its person has from then on: both or neither.
    [[nodiscard]] virtual Answer<SiteOutcome> runWithPin(const SiteRequest& request,
                                                         Secret pin) = 0;
    /// The same of ChangeAccess and a badge; an empty code takes it away.
    [[nodiscard]] virtual Answer<SiteOutcome> runWithBadge(const SiteRequest& request,
                                                           const QString& code) = 0;
    [[nodiscard]] virtual QFuture<tl::expected<std::optional<PersonId>, AccessError>>
    personOfBadge(const QString& code) = 0;

    // ---- photos
    [[nodiscard]] virtual QFuture<tl::expected<PhotoTaken, EvidenceError>>
    keepPhotoFile(const QString& path) = 0;
    [[nodiscard]] virtual QFuture<tl::expected<PhotoTaken, EvidenceError>>
    keepPhoto(const QImage& frame) = 0;
    /// A file's bytes, from whoever sent them.
    [[nodiscard]] virtual QFuture<tl::expected<PhotoTaken, EvidenceError>>
    keepPhotoBytes(const QByteArray& bytes) = 0;
    /// Lays the later one on the earlier one, if it can be.
    [[nodiscard]] virtual QFuture<tl::expected<PhotoPair, EvidenceError>>
    alignPhotos(const PhotoId& before, const PhotoId& after) = 0;
    /// Those of the fresh photos that are almost the same picture as an earlier one, or as a fresh
    /// one before them. What cannot be read is like nothing.
    [[nodiscard]] virtual QFuture<std::vector<PhotoId>>
    photosSeenBefore(const std::vector<PhotoId>& fresh, const std::vector<PhotoId>& earlier) = 0;
    /// Photos in the drop folder and on the sticks, newest first.
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
    /// Files in the drop folder and on sticks that may be appraisals, the newest first.
    [[nodiscard]] virtual QFuture<tl::expected<std::vector<DroppedFile>, EvidenceError>>
    appraisalFiles() = 0;
    /// Files in the drop folder that may be a house's or a catalogue.
    [[nodiscard]] virtual QFuture<tl::expected<std::vector<DroppedFile>, EvidenceError>>
    houseFiles() = 0;
    /// Writes the house and its catalogue into the drop folder; the value says where.
    [[nodiscard]] virtual QFuture<tl::expected<QString, QString>> exportHouse() = 0;
    /// Takes a house or a catalogue in, all of it or nothing, once the PIN was entered for that
    /// request. Error: each fault in words.
    [[nodiscard]] virtual QFuture<tl::expected<void, QStringList>>
    importHouse(const CommandId& request, PersonId actor, const QString& path) = 0;
    /// The error is words for a person.
    [[nodiscard]] virtual QFuture<tl::expected<RecordPages, QString>>
    makeRecord(const CarId& car) = 0;
    /// Writes what makeRecord gave; the value is the path that was written.
    [[nodiscard]] virtual QFuture<tl::expected<QString, QString>>
    saveRecord(const QString& stockNumber, const QByteArray& pdf) = 0;

    // ---- paper; every error is words for a person
    /// Only for a car in prep.
    [[nodiscard]] virtual QFuture<tl::expected<PaperMade, QString>>
    makeDoorSheet(const CarId& car) = 0;
    [[nodiscard]] virtual QFuture<tl::expected<PaperMade, QString>>
    makeWheelTag(const CarId& car, const PlaceId& wheel) = 0;
    /// The value is the path that was written; a file of that name is replaced.
    [[nodiscard]] virtual QFuture<tl::expected<QString, QString>>
    savePaper(const QString& fileName, const QByteArray& pdf, KeepAt where) = 0;
    /// The stick that savePaper would take; empty: none is in.
    [[nodiscard]] virtual QFuture<QString> stickName() = 0;
    /// The value says what became of it: sent, or taken by a printer that is out of paper.
    [[nodiscard]] virtual QFuture<tl::expected<QString, QString>>
    printPaper(const QString& title, const QByteArray& pdf) = 0;
    [[nodiscard]] virtual QFuture<tl::expected<std::vector<PrintQueue>, QString>> printQueues() = 0;
    /// The queue that printPaper takes; empty: none is set.
    [[nodiscard]] virtual QString printer() const = 0;
    virtual void usePrinter(const QString& queue) = 0;
    [[nodiscard]] bool hasPrinter() const { return !printer().isEmpty(); }

    // ---- the server that several kiosks share
    [[nodiscard]] virtual ServerStanding standing() const { return {}; }
    /// Sites on the same server, behind this one in the order of their ids; none: that was all.
    [[nodiscard]] virtual Answer<std::vector<SiteFacts>> sitesAfter(const SiteId& site, int most)
    {
        Q_UNUSED(site)
        Q_UNUSED(most)
        return QtFuture::makeReadyFuture(
            tl::expected<std::vector<SiteFacts>, Failure>(std::vector<SiteFacts>()));
    }
    /// Takes note of a request that the server's state refused. Error: words for a person.
    [[nodiscard]] virtual QFuture<tl::expected<void, QString>> noteRefused(qint64 kept, PersonId by)
    {
        Q_UNUSED(kept)
        Q_UNUSED(by)
        return QtFuture::makeReadyFuture(tl::expected<void, QString>());
    }

    /// What was refused, or befell this kiosk, and somebody took note of; the latest first. Error:
    /// words for a person.
    [[nodiscard]] virtual QFuture<tl::expected<std::vector<KeptRequest>, QString>> notedRefusals()
    {
        return QtFuture::makeReadyFuture(
            tl::expected<std::vector<KeptRequest>, QString>(std::vector<KeptRequest>()));
    }
    /// The last whole backup of the site that any of its kiosks made. Only with a shared server;
    /// blank where none is noted.
    [[nodiscard]] virtual Answer<SiteBackup> siteBackup()
    {
        return QtFuture::makeReadyFuture(tl::expected<SiteBackup, Failure>(SiteBackup()));
    }

signals:
    /// The server went away or came back, or what is kept meanwhile changed.
    void standingChanged();
    /// A car changed, from this program or another one: read the cards again.
    void carsChanged();
    /// People, bays or house rules changed.
    void siteChanged();
    /// The workshop's own file is not what was written; in words. It goes on as far as it can be
    /// read.
    void storeDamaged(const QString& words);
    /// Words: what happened, what was kept, what to do. Empty: the store answers again.
    void storeFault(const QString& words);
};

} // namespace ramplight
