// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/ask.h"
#include "kiosk/carlists.h"
#include "kiosk/carprobe.h"
#include "kiosk/findingdraft.h"
#include "kiosk/identitydraft.h"
#include "kiosk/phototarget.h"

#include <QObject>
#include <QVariantMap>
#include <QtQmlIntegration>

namespace ramplight {

/// The one car that is open on the screen, read from the ledger and read again when it changes. Its
/// invokables answer through `ask` (what = the name of the invokable). Dates are ISO texts
/// ("2031-05-04"), ids of people, bays, operations and findings are ints. GUI thread.
class CarView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    Q_PROPERTY(ramplight::Ask* ask READ ask CONSTANT FINAL)
    Q_PROPERTY(QString carId READ carId NOTIFY changed FINAL)
    /// False while it is read for the first time.
    Q_PROPERTY(bool loaded READ loaded NOTIFY changed FINAL)
    /// Why it cannot be shown; empty when all is well. reload() tries again.
    Q_PROPERTY(QString fault READ fault NOTIFY changed FINAL)
    // ---- identity
    Q_PROPERTY(QString stockNumber READ stockNumber NOTIFY changed FINAL)
    Q_PROPERTY(QString registration READ registration NOTIFY changed FINAL)
    Q_PROPERTY(QString vin READ vin NOTIFY changed FINAL)
    Q_PROPERTY(QString makeModel READ makeModel NOTIFY changed FINAL)
    Q_PROPERTY(QString shape READ shape NOTIFY changed FINAL)
    /// "hatch · slate · bay 1": the line beside the stock number.
    Q_PROPERTY(QString aboutWords READ aboutWords NOTIFY changed FINAL)
    /// "41 200 miles · 2 keys · test certificate for 7 months · traction battery"
    Q_PROPERTY(QString factWords READ factWords NOTIFY changed FINAL)
    Q_PROPERTY(QString odometerWords READ odometerWords NOTIFY changed FINAL) ///< as last read
    /// It counts these, as far as anybody knows, and no miles.
    Q_PROPERTY(bool odometerKilometres READ odometerKilometres NOTIFY changed FINAL)
    Q_PROPERTY(QString placeWord READ placeWord NOTIFY changed FINAL)
    Q_PROPERTY(int bayId READ bayId NOTIFY changed FINAL)
    Q_PROPERTY(QString promisedWord READ promisedWord NOTIFY changed FINAL)
    Q_PROPERTY(QString promised READ promised NOTIFY changed FINAL) ///< ISO date
    /// "must be kept"; empty for a usual promise.
    Q_PROPERTY(QString importanceWord READ importanceWord NOTIFY changed FINAL)
    Q_PROPERTY(QString importance READ importance NOTIFY changed FINAL) ///< id, e.g. "usual"
    Q_PROPERTY(bool late READ late NOTIFY changed FINAL)
    Q_PROPERTY(QString arrivedWords READ arrivedWords NOTIFY changed FINAL)
    // ---- state
    Q_PROPERTY(QString status READ status NOTIFY changed FINAL) ///< id, e.g. "ready-for-release"
    Q_PROPERTY(QString statusWord READ statusWord NOTIFY changed FINAL)
    Q_PROPERTY(int band READ band NOTIFY changed FINAL) ///< Wall.Band
    Q_PROPERTY(QVariantMap marks READ marks NOTIFY changed FINAL)
    Q_PROPERTY(QStringList restraintWords READ restraintWords NOTIFY changed FINAL)
    Q_PROPERTY(QString minutesWords READ minutesWords NOTIFY changed FINAL) ///< all work so far
    /// "looked at 58 of 61 places; not looked at: ..." ; empty before the appraisal.
    Q_PROPERTY(QString appraisalWords READ appraisalWords NOTIFY changed FINAL)
    Q_PROPERTY(bool appraised READ appraised NOTIFY changed FINAL)
    /// Drafts of spoken walk-rounds that nobody has decided about.
    Q_PROPERTY(int openDrafts READ openDrafts NOTIFY changed FINAL)
    /// "Released by Oskar, today 16:00"; why it left; why it is held again. Empty.
    Q_PROPERTY(QString outcomeWords READ outcomeWords NOTIFY changed FINAL)
    /// What a signature to sale stands for, a sentence each.
    Q_PROPERTY(QStringList signedForWords READ signedForWords NOTIFY changed FINAL)
    // ---- lists
    Q_PROPERTY(ramplight::OperationsModel* operations READ operations CONSTANT FINAL)
    Q_PROPERTY(ramplight::FindingsModel* findings READ findings CONSTANT FINAL)
    Q_PROPERTY(ramplight::HoldsModel* holds READ holds CONSTANT FINAL)
    /// Stock number of another car in prep with this one's VIN: entered twice, it seems; empty.
    Q_PROPERTY(QString sameVinStock READ sameVinStock NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::HistoryModel* history READ history CONSTANT FINAL) ///< newest first
    Q_PROPERTY(ramplight::PhotosModel* photos READ photos CONSTANT FINAL)
    // ---- forms
    Q_PROPERTY(ramplight::FindingDraft* finding READ finding CONSTANT FINAL)
    Q_PROPERTY(ramplight::IdentityDraft* identity READ identity CONSTANT FINAL)
    Q_PROPERTY(ramplight::Choices* importances READ importances CONSTANT FINAL) ///< of a promise
    Q_PROPERTY(ramplight::Choices* kinds READ kinds CONSTANT FINAL) ///< operations of the catalogue
    Q_PROPERTY(ramplight::Choices* places READ places CONSTANT FINAL) ///< for openOperation
    // ---- what can be done now
    Q_PROPERTY(ramplight::Offer release READ releaseOffer NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::Offer move READ moveOffer NOTIFY changed FINAL)
    /// To record a finding, also on a released car: it is held again then.
    Q_PROPERTY(ramplight::Offer find READ findOffer NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::Offer leave READ leaveOffer NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::Offer bringBackOffer READ bringBackOffer NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::Offer recordOffer READ recordOffer NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::Offer finishAppraisalOffer READ finishAppraisalOffer NOTIFY changed FINAL)
    /// Why nothing can be corrected now; empty: it can.
    Q_PROPERTY(QString correctionWaits READ correctionWaits NOTIFY changed FINAL)

public:
    CarView(Desk& desk, Session& session, SiteBook& book, CardFeed& feed, Ticker& ticker,
            const Catalogue& catalogue, QObject* parent = nullptr);

    [[nodiscard]] Ask* ask() { return &m_ask; }
    [[nodiscard]] QString carId() const { return m_id.text; }
    [[nodiscard]] QString correctionWaits() const;
    [[nodiscard]] bool loaded() const { return m_car.seq > 0; }
    [[nodiscard]] QString fault() const { return m_fault; }
    [[nodiscard]] QString stockNumber() const { return m_car.identity.stockNumber; }
    [[nodiscard]] QString registration() const { return m_car.identity.registration; }
    [[nodiscard]] QString vin() const { return m_car.identity.vin; }
    [[nodiscard]] QString makeModel() const;
    [[nodiscard]] QString shape() const;
    [[nodiscard]] QString aboutWords() const;
    [[nodiscard]] QString factWords() const;
    [[nodiscard]] QString odometerWords() const;
    [[nodiscard]] bool odometerKilometres() const;
    [[nodiscard]] QString placeWord() const;
    [[nodiscard]] int bayId() const { return m_car.bay.value; }
    [[nodiscard]] QString promisedWord() const;
    [[nodiscard]] QString promised() const;
    [[nodiscard]] QString importanceWord() const;
    [[nodiscard]] QString importance() const;
    [[nodiscard]] bool late() const;
    [[nodiscard]] QString arrivedWords() const;
    [[nodiscard]] QString status() const;
    [[nodiscard]] QString statusWord() const;
    [[nodiscard]] int band() const { return m_band; }
    [[nodiscard]] QVariantMap marks() const { return m_marks; }
    [[nodiscard]] QStringList restraintWords() const { return m_restraints; }
    [[nodiscard]] QString minutesWords() const;
    [[nodiscard]] QString appraisalWords() const;
    [[nodiscard]] bool appraised() const { return m_car.appraised; }
    [[nodiscard]] int openDrafts() const { return m_car.openDrafts(); }
    [[nodiscard]] QString outcomeWords() const;
    [[nodiscard]] QStringList signedForWords() const;
    [[nodiscard]] OperationsModel* operations() { return &m_operations; }
    [[nodiscard]] FindingsModel* findings() { return &m_findings; }
    [[nodiscard]] HoldsModel* holds() { return &m_holds; }
    [[nodiscard]] QString sameVinStock() const;
    [[nodiscard]] HistoryModel* history() { return &m_history; }
    [[nodiscard]] PhotosModel* photos() { return &m_photos; }
    [[nodiscard]] FindingDraft* finding() { return &m_finding; }
    [[nodiscard]] IdentityDraft* identity() { return &m_identity; }
    [[nodiscard]] Choices* importances() { return &m_importances; }
    [[nodiscard]] Choices* kinds() { return &m_kinds; }
    [[nodiscard]] Choices* places() { return &m_places; }
    [[nodiscard]] Offer releaseOffer() const { return m_releaseOffer; }
    [[nodiscard]] Offer moveOffer() const { return m_moveOffer; }
    [[nodiscard]] Offer findOffer() const { return m_findOffer; }
    [[nodiscard]] Offer leaveOffer() const { return m_leaveOffer; }
    [[nodiscard]] Offer bringBackOffer() const { return m_bringBackOffer; }
    [[nodiscard]] Offer recordOffer() const { return m_recordOffer; }
    [[nodiscard]] Offer finishAppraisalOffer() const { return m_finishAppraisalOffer; }

    Q_INVOKABLE void open(const QString& carId);
    Q_INVOKABLE void close();
    Q_INVOKABLE void reload();

    Q_INVOKABLE void moveToBay(int bayId);
    Q_INVOKABLE void moveToParking(const QString& words);
    /// Asks for the PIN again, then signs the car to sale. Refused with the list of holds.
    Q_INVOKABLE void releaseToSale();
    /// how: trade, scrap, back-to-owner.
    Q_INVOKABLE void leaveUnreleased(const QString& how, const QString& reason);
    Q_INVOKABLE void bringBack(const QString& reason);
    /// Fills `finding` with what was recorded, to correct it.
    Q_INVOKABLE void editFinding(int findingId);
    /// The photo may be empty where the domain asks for none.
    Q_INVOKABLE void correctFinding(int findingId, bool stands, const QString& reason,
                                    const QString& photoId);
    /// Narrows `kinds` to what can be done at a place.
    Q_INVOKABLE void offerKinds(const QString& placeId);
    /// The place touched in the drawing, or "car" for the whole car.
    Q_INVOKABLE void openOperation(const QString& kind, const QString& placeId,
                                   const QString& reason);
    Q_INVOKABLE void withdrawOperation(int operationId, const QString& reason);
    /// Whether the odometer then shows less than it did before, which wants a reason.
    Q_INVOKABLE [[nodiscard]] bool showsLess(int odometer, bool kilometres) const;
    Q_INVOKABLE void readOdometer(int odometer, bool kilometres, const QString& reason);
    /// importance: an id of importances.
    Q_INVOKABLE void changePromise(const QString& isoDate, const QString& importance,
                                   const QString& reason);
    /// Fills `identity` with what is known, to correct it.
    Q_INVOKABLE void editIdentity();
    Q_INVOKABLE void correctIdentity(const QString& reason);
    Q_INVOKABLE void correctFacts(const QString& reason, const QString& photoId);
    /// This car was entered twice: the other entry's evidence comes over, and it leaves.
    Q_INVOKABLE void linkDuplicate(const QString& otherStockNumber, const QString& reason);
    /// Photos of the car or of one of its findings (findingId 0: of the car).
    Q_INVOKABLE void attachFiles(const QStringList& paths, int findingId);
    Q_INVOKABLE void attachFrame(const QImage& frame, int findingId);
    /// Keeps a picture that a correction will name; answers with photoKept.
    Q_INVOKABLE void keepFile(const QString& path);
    Q_INVOKABLE void keepFrame(const QImage& frame);

    // ---- for the operation's view
    [[nodiscard]] const CarState& car() const { return m_car; }
    [[nodiscard]] const std::vector<CarEnvelope>& envelopes() const { return m_envelopes; }
    [[nodiscard]] CarId id() const { return m_id; }
    /// Sends commands on this car as whoever is signed in (asks first when nobody is).
    void send(Ask& ask, const QString& what, const QString& why, std::vector<CarCommand> commands,
              bool pinAgain = false, const std::function<void(const CarOutcome&)>& then = {});
    /// The same on a car that was open when it was begun; another one may be by now.
    void sendTo(const CarId& car, Ask& ask, const QString& what, const QString& why,
                std::vector<CarCommand> commands, bool pinAgain = false,
                const std::function<void(const CarOutcome&)>& then = {});
    /// The domain's answer to a command now, without carrying it out.
    [[nodiscard]] Offer probe(const CarCommand& command, bool shown = true) const;
    /// The same for commands that are sent together, in order.
    [[nodiscard]] Offer probeTogether(const std::vector<CarCommand>& commands,
                                      bool shown = true) const;

    /// A picture that is still to be kept.
    struct PhotoSource
    {
        QString name; ///< of its file; empty for what a camera took
        std::function<QFuture<tl::expected<PhotoTaken, EvidenceError>>()> keep;
    };
    [[nodiscard]] std::vector<PhotoSource> filesOf(const QStringList& paths);
    [[nodiscard]] std::vector<PhotoSource> frameOf(const QImage& frame);
    /// Keeps pictures and puts them where they belong, in one command. What cannot be taken is told
    /// through ask; the others are taken all the same.
    void attachTo(Ask& ask, const PhotoTarget& target, const std::vector<PhotoSource>& sources,
                  const std::function<void(const std::vector<PhotoTaken>&)>& then);

signals:
    void changed();
    /// It was released or left: screens go on to the record or back to the wall.
    void released();
    void left();
    void photoKept(const QString& photoId, const QStringList& warnings);
    /// The server is back, or away, and these have other numbers in what is shown from now on: old
    /// number -> new one, 0 where it is not there any more.
    void renumbered(const QVariantMap& findings, const QVariantMap& operations);

private:
    void take(const CarState& car);
    void followStore();
    void tellNumbers(const CarState& before);
    void readHistory();
    void rebuild();
    void rebuildHistory();
    void rebuildOffers();
    void attach(const std::vector<PhotoSource>& sources, int findingId);
    void keep(const std::vector<PhotoSource>& sources);
    void attachKept(Ask& ask, const PhotoTarget& target, const CarState& now,
                    const std::vector<PhotoTaken>& kept, const QStringList& refused,
                    const std::function<void(const std::vector<PhotoTaken>&)>& then);
    /// refused: what could not be kept, a line for each.
    void takePhotos(Ask& ask, const std::vector<PhotoSource>& sources,
                    const std::function<void(const std::vector<PhotoTaken>& kept,
                                             const QStringList& refused)>& ready);

    Desk& m_desk;
    Session& m_session;
    SiteBook& m_book;
    Ticker& m_ticker;
    CardFeed& m_feed;
    CarProbe m_probe;
    Ask m_ask;
    CarId m_id;
    CarState m_car;
    std::vector<CarEnvelope> m_envelopes;
    QString m_fault;
    int m_band = 0;
    QVariantMap m_marks;
    QStringList m_restraints;
    OperationsModel m_operations;
    FindingsModel m_findings;
    HoldsModel m_holds;
    HistoryModel m_history;
    PhotosModel m_photos;
    FindingDraft m_finding;
    IdentityDraft m_identity;
    Choices m_importances;
    Choices m_kinds;
    PlaceId m_kindsFor; ///< the place that `kinds` is narrowed to
    Choices m_places;
    Offer m_releaseOffer;
    Offer m_moveOffer;
    Offer m_findOffer;
    Offer m_leaveOffer;
    Offer m_bringBackOffer;
    Offer m_recordOffer;
    Offer m_finishAppraisalOffer;
    int m_turn = 0;              // answers to an older open() are dropped
    bool m_away = false;         ///< the server; a copy answers
    bool m_anotherStore = false; ///< answers since it was read last
};

} // namespace ramplight
