// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "access/signin.h"
#include "evidence/dropfolder.h"
#include "evidence/photostore.h"
#include "kiosk/desk.h"
#include "storage/storethread.h"

namespace ramplight::test {

/// The desk of the bench: commands, reading and PINs through the real store on its thread; photos
/// into a folder of their own. GUI thread.
class BenchDesk : public Desk
{
    Q_OBJECT

public:
    /// All outlive the desk.
    BenchDesk(StoreThread& store, const Clock& clock, const Secret& pepper, PhotoStore& photos,
              QString dropFolder);
    /// Quick enough for tests that sign in often.
    static constexpr PinCost cheap{1, std::size_t{1} << 16U};

    [[nodiscard]] Answer<CarOutcome> run(const CarRequest& request) override;
    [[nodiscard]] Answer<SiteOutcome> run(const SiteRequest& request) override;
    [[nodiscard]] Answer<CarOutcome> mergeDuplicate(const CommandId& id, PersonId actor,
                                                    const CarId& keep, const CarId& second,
                                                    const QString& reason) override;
    [[nodiscard]] Answer<int> stopAllWork(const CommandId& id, Moment shiftEnd) override;
    [[nodiscard]] Answer<SiteState> site() override;
    [[nodiscard]] Answer<std::vector<CarCard>> openCards() override;
    [[nodiscard]] Answer<CarState> car(const CarId& id) override;
    [[nodiscard]] Answer<std::vector<CarEnvelope>> history(const CarId& id) override;
    [[nodiscard]] Answer<std::optional<CarId>>
    carByStockNumber(const QString& stockNumber) override;
    [[nodiscard]] QFuture<tl::expected<SignInAnswer, AccessError>> tryPin(PersonId person,
                                                                          Secret pin) override;
    [[nodiscard]] QFuture<tl::expected<SignInAnswer, AccessError>>
    signInStanding(PersonId person) override;
    [[nodiscard]] QFuture<tl::expected<void, AccessError>> setPin(PersonId person,
                                                                  Secret pin) override;
    [[nodiscard]] QFuture<tl::expected<std::optional<PersonId>, AccessError>>
    personOfBadge(const QString& code) override;
    [[nodiscard]] QFuture<tl::expected<void, AccessError>> setBadge(PersonId person,
                                                                    const QString& code) override;
    [[nodiscard]] QFuture<tl::expected<PhotoTaken, EvidenceError>>
    keepPhotoFile(const QString& path) override;
    [[nodiscard]] QFuture<tl::expected<PhotoTaken, EvidenceError>>
    keepPhoto(const QImage& frame) override;
    [[nodiscard]] QFuture<tl::expected<std::vector<DroppedFile>, EvidenceError>>
    droppedFiles() override;
    [[nodiscard]] QFuture<tl::expected<ImportReport, ImportFaults>>
    importAppraisal(const QString& path, PersonId actor) override;
    [[nodiscard]] QFuture<tl::expected<RecordPages, QString>> makeRecord(const CarId& car) override;
    [[nodiscard]] QFuture<tl::expected<QString, QString>>
    saveRecord(const QString& stockNumber, const QByteArray& pdf) override;
    [[nodiscard]] QFuture<tl::expected<void, QString>> printRecord(const QByteArray& pdf) override;
    [[nodiscard]] bool hasPrinter() const override { return false; }

private:
    /// f(SignIn&, Store&) on the store's thread.
    template <class F>
    auto withSignIn(F f);

    StoreThread& m_store;
    const Clock& m_clock;
    const Secret& m_pepper;
    PhotoStore& m_photos;
    QString m_dropFolder;
};

} // namespace ramplight::test
