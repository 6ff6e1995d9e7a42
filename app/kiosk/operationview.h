// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/carcommands.h"
#include "kiosk/operationoffers.h"
#include "kiosk/toolchoice.h"

#include <QObject>
#include <QtQmlIntegration>

namespace ramplight {

/// One operation of the car that is open: read the cautions, start, measure, photograph, sign.
/// Everything follows CarView's car. Invokables answer through `ask` (what = the invokable's name).
/// GUI thread.
class OperationView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    Q_PROPERTY(ramplight::Ask* ask READ ask CONSTANT FINAL)
    /// The car it belongs to: shape, marks, stock number.
    Q_PROPERTY(ramplight::CarView* car READ carView CONSTANT FINAL)
    Q_PROPERTY(int operationId READ operationId NOTIFY changed FINAL)
    Q_PROPERTY(bool loaded READ loaded NOTIFY changed FINAL)
    // ---- what it is
    Q_PROPERTY(QString title READ title NOTIFY changed FINAL)
    Q_PROPERTY(QString placeId READ placeId NOTIFY changed FINAL)
    Q_PROPERTY(QString placeWords READ placeWords NOTIFY changed FINAL)
    /// "from the appraisal: kerbed, moderate"
    Q_PROPERTY(QString whyWords READ whyWords NOTIFY changed FINAL)
    Q_PROPERTY(QString stateWord READ stateWord NOTIFY changed FINAL)
    Q_PROPERTY(int band READ band NOTIFY changed FINAL) ///< Wall.Band
    Q_PROPERTY(bool safety READ safety NOTIFY changed FINAL)
    Q_PROPERTY(bool check READ check NOTIFY changed FINAL) ///< it is a check of other work
    Q_PROPERTY(bool countersigned READ countersigned NOTIFY changed FINAL) ///< needs a second name
    Q_PROPERTY(QString skillWords READ skillWords NOTIFY changed FINAL)
    /// Part on order, outside firm, sent back because, left as it is: words; empty.
    Q_PROPERTY(QString situationWords READ situationWords NOTIFY changed FINAL)
    /// What will open when this closes: "Wheel fixings: torque, then a second person".
    Q_PROPERTY(QStringList opensWords READ opensWords NOTIFY changed FINAL)
    /// Names under it: "Did the work: Ines, today 14:20".
    Q_PROPERTY(QStringList signatureWords READ signatureWords NOTIFY changed FINAL)
    // ---- cautions
    Q_PROPERTY(ramplight::CautionsModel* cautions READ cautions CONSTANT FINAL)
    /// Who is signed in has read them (or there are none).
    Q_PROPERTY(bool cautionsRead READ cautionsRead NOTIFY changed FINAL)
    Q_PROPERTY(QString cautionsReadWords READ cautionsReadWords NOTIFY changed FINAL)
    /// When to refuse the work or send it elsewhere, until somebody began: "Refer it when ...".
    Q_PROPERTY(QStringList referWords READ referWords NOTIFY changed FINAL)
    // ---- time
    /// It may not stand half done overnight and would: what to think of first. Empty otherwise.
    Q_PROPERTY(QString overnightWords READ overnightWords NOTIFY ticked FINAL)
    /// A timer on it was probably forgotten: since when, and the question. Empty otherwise.
    Q_PROPERTY(QString forgottenWords READ forgottenWords NOTIFY ticked FINAL)
    Q_PROPERTY(QString usualWords READ usualWords NOTIFY changed FINAL) ///< "1 h 10 to 2 h"
    Q_PROPERTY(int usualMinutes READ usualMinutes NOTIFY changed FINAL)
    Q_PROPERTY(int highMinutes READ highMinutes NOTIFY changed FINAL)
    Q_PROPERTY(bool running READ running NOTIFY changed FINAL)     ///< somebody's timer runs
    Q_PROPERTY(bool myRunning READ myRunning NOTIFY changed FINAL) ///< of who is signed in
    /// Back from a firm: measured and signed here without a timer.
    Q_PROPERTY(bool awaitsReceipt READ awaitsReceipt NOTIFY changed FINAL)
    Q_PROPERTY(QString timer READ timer NOTIFY ticked FINAL) ///< "0:38", all people's minutes
    Q_PROPERTY(int minutes READ minutes NOTIFY ticked FINAL)
    Q_PROPERTY(int myMinutes READ myMinutes NOTIFY ticked FINAL)
    Q_PROPERTY(QString startedWords READ startedWords NOTIFY ticked FINAL) ///< "started 13:22"
    Q_PROPERTY(QString peopleWords READ peopleWords NOTIFY changed FINAL)  ///< who is on it now
    Q_PROPERTY(ramplight::SegmentsModel* segments READ segments CONSTANT FINAL)
    // ---- evidence
    Q_PROPERTY(ramplight::ReadingsModel* readings READ readings CONSTANT FINAL)
    Q_PROPERTY(ramplight::PhotoNeedsModel* photoNeeds READ photoNeeds CONSTANT FINAL)
    Q_PROPERTY(ramplight::PhotosModel* photos READ photos CONSTANT FINAL)
    /// Those of `photos` that answer none of `photoNeeds`.
    Q_PROPERTY(ramplight::PhotosModel* morePhotos READ morePhotos CONSTANT FINAL)
    /// What a photo taken now is most likely of: before, during, after.
    Q_PROPERTY(QString likelyMoment READ likelyMoment NOTIFY changed FINAL)
    /// What sign-off still misses, in words; empty: it can be signed.
    Q_PROPERTY(QStringList missing READ missing NOTIFY changed FINAL)
    /// Written at sign-off; kept here while a write fails.
    Q_PROPERTY(QString note READ note WRITE setNote NOTIFY noteChanged FINAL)
    /// To whom it can be handed: people with the skill.
    Q_PROPERTY(ramplight::Choices* colleagues READ colleagues CONSTANT FINAL)
    /// What a check covers, by operation id: for failCheckOf. Empty for what is no check.
    Q_PROPERTY(ramplight::Choices* checkedWork READ checkedWork CONSTANT FINAL)
    /// One of checkedWork must be named for a check to fail: it rests on nothing that could go
    /// back.
    Q_PROPERTY(bool mustNameWork READ mustNameWork NOTIFY changed FINAL)
    // ---- what can be done now
    Q_PROPERTY(ramplight::Offer startOffer READ startOffer NOTIFY changed FINAL) ///< or resume
    Q_PROPERTY(ramplight::Offer pauseOffer READ pauseOffer NOTIFY changed FINAL)
    /// The timer that was probably forgotten: one's own, a manager's anybody's.
    Q_PROPERTY(ramplight::Offer pauseForgottenOffer READ pauseForgottenOffer NOTIFY ticked FINAL)
    Q_PROPERTY(ramplight::Offer finishOffer READ finishOffer NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::Offer countersignOffer READ countersignOffer NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::Offer failOffer READ failOffer NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::Offer reopenOffer READ reopenOffer NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::Offer leaveOffer READ leaveOffer NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::Offer withdrawOffer READ withdrawOffer NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::Offer handOverOffer READ handOverOffer NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::Offer blockOffer READ blockOffer NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::Offer unblockOffer READ unblockOffer NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::Offer sendOutOffer READ sendOutOffer NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::Offer receiveOffer READ receiveOffer NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::Offer changeDueOffer READ changeDueOffer NOTIFY changed FINAL)
    /// Characters that leaveAsIs() takes.
    Q_PROPERTY(int mostLeftWords READ mostLeftWords CONSTANT FINAL)
    /// ISO date of what it waits for; empty: it waits for nothing.
    Q_PROPERTY(QString dueDay READ dueDay NOTIFY changed FINAL)
    Q_PROPERTY(int keysOut READ keysOut NOTIFY changed FINAL) ///< given along, while it is out
    Q_PROPERTY(ramplight::Offer isolateOffer READ isolateOffer NOTIFY changed FINAL)
    Q_PROPERTY(bool isolatedByMe READ isolatedByMe NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::Offer liftOffer READ liftOffer NOTIFY changed FINAL)

public:
    explicit OperationView(Desk& desk, CarView& car, Session& session, SiteBook& book,
                           Ticker& ticker, const Catalogue& catalogue, QObject* parent = nullptr);

    [[nodiscard]] Ask* ask() { return &m_ask; }
    [[nodiscard]] CarView* carView() { return &m_view; }
    [[nodiscard]] int operationId() const { return m_id.value; }
    [[nodiscard]] bool loaded() const { return operation() != nullptr; }
    [[nodiscard]] QString title() const;
    [[nodiscard]] QString placeId() const;
    [[nodiscard]] QString placeWords() const;
    [[nodiscard]] QString whyWords() const;
    [[nodiscard]] QString stateWord() const;
    [[nodiscard]] int band() const;
    [[nodiscard]] bool safety() const;
    [[nodiscard]] bool check() const;
    [[nodiscard]] bool countersigned() const;
    [[nodiscard]] QString skillWords() const;
    [[nodiscard]] QString situationWords() const;
    [[nodiscard]] QStringList opensWords() const;
    [[nodiscard]] QStringList signatureWords() const;
    [[nodiscard]] CautionsModel* cautions() { return &m_cautions; }
    [[nodiscard]] bool cautionsRead() const;
    [[nodiscard]] QString cautionsReadWords() const;
    [[nodiscard]] QStringList referWords() const;
    [[nodiscard]] QString overnightWords() const;
    [[nodiscard]] QString forgottenWords() const;
    [[nodiscard]] QString usualWords() const;
    [[nodiscard]] int usualMinutes() const;
    [[nodiscard]] int highMinutes() const;
    [[nodiscard]] static int mostLeftWords() { return car::mostWordsForTheBuyer; }
    [[nodiscard]] bool running() const;
    [[nodiscard]] bool awaitsReceipt() const;
    [[nodiscard]] bool myRunning() const;
    [[nodiscard]] QString timer() const;
    [[nodiscard]] int minutes() const;
    [[nodiscard]] int myMinutes() const;
    [[nodiscard]] QString startedWords() const;
    [[nodiscard]] QString peopleWords() const;
    [[nodiscard]] SegmentsModel* segments() { return &m_segments; }
    [[nodiscard]] ReadingsModel* readings() { return &m_readings; }
    [[nodiscard]] PhotoNeedsModel* photoNeeds() { return &m_photoNeeds; }
    [[nodiscard]] PhotosModel* photos() { return &m_photos; }
    [[nodiscard]] PhotosModel* morePhotos() { return &m_morePhotos; }
    [[nodiscard]] QString likelyMoment() const;
    [[nodiscard]] QStringList missing() const { return m_missing; }
    [[nodiscard]] QString note() const { return m_note; }
    void setNote(const QString& note);
    [[nodiscard]] Choices* colleagues() { return &m_colleagues; }
    [[nodiscard]] Choices* checkedWork() { return &m_checkedWork; }
    [[nodiscard]] bool mustNameWork() const { return m_mustNameWork; }
    [[nodiscard]] Offer startOffer() const { return m_offers.start; }
    [[nodiscard]] Offer pauseOffer() const { return m_offers.pause; }
    [[nodiscard]] Offer pauseForgottenOffer() const;
    [[nodiscard]] Offer finishOffer() const { return m_offers.finish; }
    [[nodiscard]] Offer countersignOffer() const { return m_offers.countersign; }
    [[nodiscard]] Offer failOffer() const { return m_offers.fail; }
    [[nodiscard]] Offer reopenOffer() const { return m_offers.reopen; }
    [[nodiscard]] Offer leaveOffer() const { return m_offers.leave; }
    [[nodiscard]] Offer withdrawOffer() const { return m_offers.withdraw; }
    [[nodiscard]] Offer handOverOffer() const { return m_offers.handOver; }
    [[nodiscard]] Offer blockOffer() const { return m_offers.block; }
    [[nodiscard]] Offer unblockOffer() const { return m_offers.unblock; }
    [[nodiscard]] Offer sendOutOffer() const { return m_offers.sendOut; }
    [[nodiscard]] Offer receiveOffer() const { return m_offers.receive; }
    [[nodiscard]] Offer changeDueOffer() const { return m_offers.changeDue; }
    [[nodiscard]] QString dueDay() const;
    [[nodiscard]] int keysOut() const;
    [[nodiscard]] Offer isolateOffer() const { return m_offers.isolate; }
    [[nodiscard]] bool isolatedByMe() const;
    [[nodiscard]] Offer liftOffer() const { return m_offers.lift; }

    /// Of the car that is open, or opens that one first.
    Q_INVOKABLE void open(const QString& carId, int operationId);
    Q_INVOKABLE void close();

    Q_INVOKABLE void readCautions();
    /// Also resumes. With unread cautions on the screen: confirms them and starts, in one touch.
    Q_INVOKABLE void start();
    Q_INVOKABLE void readAndStart();
    Q_INVOKABLE void pause();
    /// Whosever it is.
    Q_INVOKABLE void pauseForgotten();
    Q_INVOKABLE void handOver(int personId);
    /// Digits as typed ("1.9"); text: an option's id or words. Digits that are none are refused.
    Q_INVOKABLE void takeReading(const QString& rowId, const QString& text);
    /// With which of the house's tools this person measures, from here on.
    Q_INVOKABLE void chooseTool(const QString& rowId, int toolId);
    /// This car's figure or limit, with where it was looked up.
    Q_INVOKABLE void setFigure(const QString& rowId, const QString& text, const QString& source);
    Q_INVOKABLE void correctFigure(const QString& rowId, const QString& text, const QString& source,
                                   const QString& reason, const QString& photoId);
    Q_INVOKABLE void correctReading(int readingId, const QString& text, const QString& reason,
                                    const QString& photoId);
    /// moment: before, during, after.
    Q_INVOKABLE void attachFiles(const QStringList& paths, const QString& moment);
    Q_INVOKABLE void attachFrame(const QImage& frame, const QString& moment);
    /// What a photo of this moment is taken over, for an Image that says its size: of what was
    /// there before, the one that answers it. rank: which of the photos of its moment it is to be,
    /// from 0. Empty when there is none, and for a photo before.
    Q_INVOKABLE [[nodiscard]] QString guideFor(const QString& moment, int rank) const;
    /// Finish and sign, with the note.
    Q_INVOKABLE void signOff();
    Q_INVOKABLE void countersign();
    Q_INVOKABLE void failCheck(const QString& reason);
    /// Where the check covers more than one piece of work: which of checkedWork goes back.
    Q_INVOKABLE void failCheckOf(int operationId, const QString& reason);
    Q_INVOKABLE void reopen(const QString& reason);
    Q_INVOKABLE void leaveAsIs(const QString& wordsForTheBuyer);
    Q_INVOKABLE void withdraw(const QString& reason);
    Q_INVOKABLE void blockForPart(const QString& part, const QString& supplier,
                                  const QString& isoDue);
    Q_INVOKABLE void unblock();
    Q_INVOKABLE void sendOut(const QString& firm, const QString& isoDueBack, int keys,
                             const QString& document);
    /// keys: how many came back, where some were given along (keysOut).
    Q_INVOKABLE void receiveBack(const QString& document, int keys = 0);
    /// reason may be empty.
    Q_INVOKABLE void changeDue(const QString& isoDue, const QString& reason);
    Q_INVOKABLE void isolate(const QString& lockKeptAt);
    Q_INVOKABLE void liftIsolation(const QString& procedure);
    Q_INVOKABLE void correctMinutes(int segmentId, int minutes, const QString& reason);

    /// Where a photo of this moment belongs; nothing when no operation is open.
    [[nodiscard]] std::optional<PhotoTarget> photoTarget(const QString& moment) const;

signals:
    void changed();
    void ticked();
    void noteChanged();
    /// Photos were kept; warnings (none: all is well) ask for a look at them, they count all the
    /// same.
    void photoWarnings(const QStringList& warnings);
    /// It was signed: screens go back to the car or the wall.
    void signedOff();

private:
    [[nodiscard]] const Operation* operation() const;
    [[nodiscard]] const ReadingSpec* specOf(const QString& rowId, PlaceId& place) const;
    [[nodiscard]] std::optional<ReadingValue> parse(const ReadingSpec& spec, const QString& text,
                                                    const QString& what);
    [[nodiscard]] QString why() const; ///< what the PIN is asked for
    [[nodiscard]] std::vector<CarCommand> forgottenPauses() const;
    void send(const QString& what, std::vector<CarCommand> commands,
              const std::function<void(const CarOutcome&)>& then = {});
    void attach(const std::vector<CarView::PhotoSource>& sources, const QString& moment);
    void rebuild();

    Desk& m_desk;
    CarView& m_view;
    Session& m_session;
    SiteBook& m_book;
    Ticker& m_ticker;
    const Catalogue& m_catalogue;
    ToolChoice m_tools;
    Ask m_ask;
    CarId m_car; // whose operation it is: CarView may go on to another car
    OperationId m_id;
    CautionsModel m_cautions;
    SegmentsModel m_segments;
    ReadingsModel m_readings;
    PhotoNeedsModel m_photoNeeds;
    PhotosModel m_photos;
    PhotosModel m_morePhotos;
    Choices m_colleagues;
    Choices m_checkedWork;
    bool m_mustNameWork = false;
    QStringList m_missing;
    QString m_note;
    OperationOffers m_offers;
};

} // namespace ramplight
