// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "access/heldmarks.h"
#include "access/pinhasher.h"
#include "desk/transcriptroom.h"
#include "evidence/photovault.h"
#include "kiosk/backgroundpool.h"
#include "kiosk/desk.h"
#include "storage/storethread.h"

#include <deque>
#include <memory>

namespace ramplight {

/// For which requests somebody entered the PIN, the last few of them. On the store's thread only.
class PinsEntered
{
public:
    void add(PersonId person, const CommandId& request);
    [[nodiscard]] bool has(PersonId person, const CommandId& request) const;

private:
    std::deque<std::pair<PersonId, CommandId>> m_entered;
};

/// Where the desk finds what is not in the store.
struct DeskPlaces
{
    QString dropFolder;
    QString recordFolder;
    QString printer; ///< CUPS queue; empty: there is none
    QByteArray appraisalSchema;
    QString standingLine;          ///< the catalogue's
    SpeechPlaces speech = {};      ///< its sticks are looked through for photos, too
    PrintPort* printing = nullptr; ///< outlives the desk; null: nothing can be printed
};

/// The desk of a real workshop: commands, reading and PINs through the store on its thread; photos,
/// files and records on a pool. GUI thread.
class WorkshopDesk : public Desk
{
    Q_OBJECT

public:
    /// store, clock and photos outlive the desk; the pepper is the desk's own copy.
    WorkshopDesk(StoreThread& store, const Clock& clock, Secret pepper, PhotoVault& photos,
                 DeskPlaces places, PinCost cost = {});
    /// Waits for what is under way on the pool.
    ~WorkshopDesk() override;

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
    [[nodiscard]] QString printer() const override { return m_places.printer; }
    void usePrinter(const QString& queue) override { m_places.printer = queue; }
    [[nodiscard]] ServerStanding standing() const override { return m_standing; }
    [[nodiscard]] Answer<std::vector<SiteFacts>> sitesAfter(const SiteId& site, int most) override;
    [[nodiscard]] QFuture<tl::expected<void, QString>> noteRefused(qint64 kept,
                                                                   PersonId by) override;
    [[nodiscard]] QFuture<tl::expected<std::vector<KeptRequest>, QString>> notedRefusals() override;
    [[nodiscard]] Answer<SiteBackup> siteBackup() override;

private:
    /// f(SignIn&, Store&, Workshop&) on the store's thread.
    template <class F>
    auto withSignIn(F f);
    void tellOwedAlarms();
    /// What f(Workshop&, Store&) on the store's thread comes to: something or a StoreError, or a
    /// Failure. Waits for it; on the pool only.
    template <class F>
    auto askStore(F f) -> std::invoke_result_t<F&, Workshop&, Store&>
    {
        auto future = m_store.run(std::move(f));
        future.waitForFinished();
        return future.result();
    }
    /// f() on the pool.
    template <class F>
    auto onPool(F f) -> QFuture<std::invoke_result_t<F&>>;
    /// f() on the photos' own: several that are picked at once come one after the other.
    template <class F>
    auto onPhotoPool(F f) -> QFuture<std::invoke_result_t<F&>>
    {
        return ramplight::onPool(m_photoPool, std::move(f));
    }

    StoreThread& m_store;
    const Clock& m_clock;
    Secret m_pepper;
    PinCost m_cost;
    std::shared_ptr<PinsEntered> m_pins = std::make_shared<PinsEntered>();
    std::shared_ptr<HeldMarks> m_heldMarks = std::make_shared<HeldMarks>(); ///< the store's thread
    PhotoVault& m_photos;
    DeskPlaces m_places;
    TranscriptRoom m_transcripts;
    ServerStanding m_standing;
    bool m_isThere = false; ///< the house's database or its server; not the copy of it
    QThreadPool m_pool;
    BackgroundPool m_photoPool;
};

template <class F>
auto WorkshopDesk::onPool(F f) -> QFuture<std::invoke_result_t<F&>>
{
    return ramplight::onPool(m_pool, std::move(f));
}

} // namespace ramplight
