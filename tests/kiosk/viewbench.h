// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/workbench.h"

#include "kiosk/shell.h"

#include <QAbstractItemModel>

#include <functional>
#include <map>

namespace ramplight::test {

/// The desk of a test: the workbench behind futures that are ready at once. Views still hear the
/// answer from the event loop, as from a real one.
class BenchDesk : public Desk
{
    Q_OBJECT

public:
    [[nodiscard]] Answer<CarOutcome> run(const CarRequest& request) override;
    [[nodiscard]] Answer<SiteOutcome> run(const SiteRequest& request) override;
    [[nodiscard]] Answer<CarOutcome> mergeDuplicate(const CommandId& id, PersonId actor,
                                                    const CarId& keep, const CarId& second,
                                                    const QString& reason) override;
    [[nodiscard]] Answer<std::vector<CarOutcome>>
    signTogether(const TogetherRequest& request) override;
    [[nodiscard]] Answer<int> stopAllWork(const CommandId& id, PersonId by,
                                          Moment shiftEnd) override;
    [[nodiscard]] Answer<SiteState> site() override;
    [[nodiscard]] Answer<std::vector<SiteEnvelope>> siteHistory() override;
    [[nodiscard]] Answer<std::vector<CarCard>> openCards() override;
    [[nodiscard]] Answer<std::vector<CarCard>> releasedCards(int most) override;
    [[nodiscard]] Answer<std::vector<CarCard>> findCars(const QString& text) override;
    [[nodiscard]] Answer<CarState> car(const CarId& id) override;
    [[nodiscard]] Answer<std::vector<CarEnvelope>> history(const CarId& id) override;
    [[nodiscard]] Answer<std::optional<CarId>>
    carByStockNumber(const QString& stockNumber) override;
    [[nodiscard]] QFuture<tl::expected<SignInAnswer, AccessError>>
    tryPin(PersonId person, Secret pin, const CommandId& request) override;
    [[nodiscard]] QFuture<tl::expected<SignInAnswer, AccessError>>
    signInStanding(PersonId person) override;
    [[nodiscard]] QFuture<tl::expected<void, AccessError>> setPin(PersonId person,
                                                                  Secret pin) override;
    [[nodiscard]] QFuture<tl::expected<std::optional<PersonId>, AccessError>>
    personOfBadge(const QString& code) override;
    [[nodiscard]] Answer<SiteOutcome> runWithPin(const SiteRequest& request, Secret pin) override;
    [[nodiscard]] Answer<SiteOutcome> runWithBadge(const SiteRequest& request,
                                                   const QString& code) override;
    [[nodiscard]] QFuture<tl::expected<PhotoTaken, EvidenceError>>
    keepPhotoFile(const QString& path) override;
    [[nodiscard]] QFuture<tl::expected<PhotoTaken, EvidenceError>>
    keepPhoto(const QImage& frame) override;
    [[nodiscard]] QFuture<tl::expected<PhotoTaken, EvidenceError>>
    keepPhotoBytes(const QByteArray& bytes) override;
    [[nodiscard]] QFuture<tl::expected<PhotoPair, EvidenceError>>
    alignPhotos(const PhotoId& before, const PhotoId& after) override;
    [[nodiscard]] QFuture<std::vector<PhotoId>>
    photosSeenBefore(const std::vector<PhotoId>& fresh,
                     const std::vector<PhotoId>& earlier) override;
    [[nodiscard]] QFuture<tl::expected<std::vector<DroppedFile>, EvidenceError>>
    droppedFiles() override;
    [[nodiscard]] QFuture<tl::expected<std::vector<WaitingTranscript>, QString>>
    transcripts() override;
    [[nodiscard]] QFuture<tl::expected<TranscriptTaken, QString>>
    readTranscript(const QString& path, const CarId& car, PersonId actor) override;
    [[nodiscard]] QFuture<tl::expected<SpokenText, QString>>
    spokenText(const SpokenRound& round) override;
    [[nodiscard]] QFuture<tl::expected<void, QString>>
    keepCorrection(const SpokenRound& round, int draft,
                   const std::optional<FindingData>& corrected) override;
    [[nodiscard]] QFuture<tl::expected<ImportReport, ImportFaults>>
    importAppraisal(const QString& path, PersonId actor) override;
    [[nodiscard]] QFuture<tl::expected<std::vector<DroppedFile>, EvidenceError>>
    appraisalFiles() override;
    [[nodiscard]] QFuture<tl::expected<std::vector<DroppedFile>, EvidenceError>>
    houseFiles() override;
    [[nodiscard]] QFuture<tl::expected<QString, QString>> exportHouse() override;
    [[nodiscard]] QFuture<tl::expected<void, QStringList>>
    importHouse(const CommandId& request, PersonId actor, const QString& path) override;
    [[nodiscard]] QFuture<tl::expected<RecordPages, QString>> makeRecord(const CarId& car) override;
    [[nodiscard]] QFuture<tl::expected<QString, QString>>
    saveRecord(const QString& stockNumber, const QByteArray& pdf) override;
    [[nodiscard]] QFuture<tl::expected<PaperMade, QString>>
    makeDoorSheet(const CarId& car) override;
    [[nodiscard]] QFuture<tl::expected<PaperMade, QString>>
    makeWheelTag(const CarId& car, const PlaceId& wheel) override;
    [[nodiscard]] QFuture<tl::expected<QString, QString>>
    savePaper(const QString& fileName, const QByteArray& pdf, KeepAt where) override;
    [[nodiscard]] QFuture<QString> stickName() override;
    [[nodiscard]] QFuture<tl::expected<QString, QString>>
    printPaper(const QString& title, const QByteArray& pdf) override;
    [[nodiscard]] QFuture<tl::expected<std::vector<PrintQueue>, QString>> printQueues() override;
    [[nodiscard]] QString printer() const override { return queue; }
    void usePrinter(const QString& wanted) override { queue = wanted; }

    /// Carries it out and keeps what its person has from then on.
    [[nodiscard]] Answer<SiteOutcome> runKeeping(const SiteRequest& request,
                                                 const std::function<void(PersonId)>& keep);

    Workbench bench;
    std::map<PersonId, QByteArray> pins;
    std::map<QString, PersonId> badges;
    SignInAnswer wrongPin;                ///< what a wrong PIN is answered with
    std::optional<SignInAnswer> standing; ///< instead of "the pad may be shown"
    std::optional<AccessError> accessFault;
    std::optional<AccessError> keepingFault; ///< PINs and badges are read, but not written
    std::optional<EvidenceError> photoFault;
    QStringList photoWarnings;
    PhotoPair aligned;                             ///< what any two photos are
    std::vector<std::pair<PhotoId, PhotoId>> laid; ///< photos that were compared
    bool seenBefore = false; ///< every fresh photo is almost the same as an earlier one
    /// Fresh ones, and those that they were compared with.
    std::vector<std::pair<std::vector<PhotoId>, std::vector<PhotoId>>> compared;
    QStringList importFaults;
    std::optional<QString> recordFault;
    QString queue = QStringLiteral("office");
    std::vector<PrintQueue> printers;     ///< what the printing system has
    std::optional<QString> printingFault; ///< instead of its answer
    QString waits;                        ///< why a page that was taken is not printed yet
    QStringList printed;                  ///< titles
    bool historyFails = false;
    std::vector<DroppedFile> dropped;
    QStringList houseFaults;                ///< of the next file that is taken in
    QStringList taken;                      ///< paths of files that were
    std::vector<WaitingTranscript> waiting; ///< transcripts
    SpokenRound spoken;                     ///< what reading any of them brings
    std::vector<CarRequest> asked;          ///< every request on a car, refused or not
    std::vector<SiteRequest> askedOfSite;
};

/// Who keeps the settings of the kiosk; nobody where there is none.
struct BenchKeepers
{
    ScreenKeeper screen = {};
    PhoneKeeper phone = {};
    PrinterKeeper printer = {};
};

/// The shell on the bench. Everybody's PIN is pinOf() of that person.
class ViewBench
{
public:
    explicit ViewBench(const BenchKeepers& keepers = {});

    [[nodiscard]] static QByteArray pinOf(PersonId person);
    /// Types the person's PIN on the pad that is shown.
    void typePin(PersonId person);
    /// Chooses the person and types the PIN; waits until that person is signed in.
    void signIn(PersonId person);
    /// Waits until wall, site and the open car show what the ledger has.
    void settle();
    /// Opens the car and waits for it.
    void open(const CarId& car);
    /// Waits until an action is over; its refusal's id, or "done".
    QString outcome(Ask* ask);

    BenchDesk desk;
    Workbench& bench = desk.bench;
    qint64 steadyMs = 1'000;
    Shell shell;
};

/// Role by role, a line each, in the order of the roles: "stockNumber: K1".
[[nodiscard]] QStringList dump(const QAbstractItemModel& model, int row);
/// One role of one row.
[[nodiscard]] QVariant at(const QAbstractItemModel& model, int row, const char* role);
/// One role of every row.
[[nodiscard]] QStringList column(const QAbstractItemModel& model, const char* role);

} // namespace ramplight::test
