// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/arrivalview.h"
#include "kiosk/backupview.h"
#include "kiosk/bayboard.h"
#include "kiosk/baysmodel.h"
#include "kiosk/beforeafter.h"
#include "kiosk/camera.h"
#include "kiosk/cardfeed.h"
#include "kiosk/carview.h"
#include "kiosk/desk.h"
#include "kiosk/dropmodel.h"
#include "kiosk/formercars.h"
#include "kiosk/mynext.h"
#include "kiosk/operationview.h"
#include "kiosk/paperview.h"
#include "kiosk/peoplemodel.h"
#include "kiosk/phoneaddress.h"
#include "kiosk/plannedjob.h"
#include "kiosk/planview.h"
#include "kiosk/printerview.h"
#include "kiosk/recordview.h"
#include "kiosk/recoveryview.h"
#include "kiosk/scanrouter.h"
#include "kiosk/screenview.h"
#include "kiosk/serverview.h"
#include "kiosk/session.h"
#include "kiosk/settingsview.h"
#include "kiosk/setupview.h"
#include "kiosk/shiftend.h"
#include "kiosk/sitebook.h"
#include "kiosk/speechreview.h"
#include "kiosk/staffview.h"
#include "kiosk/ticker.h"
#include "kiosk/togetherview.h"
#include "kiosk/transcriptsview.h"
#include "kiosk/walkround.h"
#include "kiosk/wallmodel.h"
#include "kiosk/whatifview.h"

#include <QObject>
#include <QtQmlIntegration>

namespace ramplight {

/// Keeps where the person at the wall is, for the next start.
using PlaceKeeper = std::function<void(const QString& place)>;

/// Everything that the screens see, handed to Main.qml as `required property Shell shell`. It owns
/// the view models; navigation is QML's, the ...Wanted signals say where something outside the
/// screens (a scan, the lock, a new car) wants to go. GUI thread.
class Shell : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("given to the main window")
    Q_PROPERTY(QString siteName READ siteName NOTIFY siteChanged FINAL)
    Q_PROPERTY(bool demo READ demo NOTIFY siteChanged FINAL) ///< mark every screen as demo
    /// False on a first start: show the set-up screen. Look at it once siteRead is true.
    Q_PROPERTY(bool siteSetUp READ siteSetUp NOTIFY siteChanged FINAL)
    Q_PROPERTY(bool siteRead READ siteRead NOTIFY siteChanged FINAL)
    /// The catalogue's safety line, shown with every caution.
    Q_PROPERTY(QString standingLine READ standingLine CONSTANT FINAL)
    Q_PROPERTY(QString clockWords READ clockWords NOTIFY minute FINAL) ///< "14:00"
    Q_PROPERTY(QString dayWords READ dayWords NOTIFY minute FINAL)     ///< "Thu 4 May"
    /// The day in the workshop's own zone, ISO.
    Q_PROPERTY(QString today READ today NOTIFY minute FINAL)
    /// The store does not answer: what happened, what was kept, what to do. Empty: all is well.
    Q_PROPERTY(QString storeFault READ storeFault NOTIFY storeFaultChanged FINAL)
    /// A passing note (a badge that nobody has, a label that no car has); empty. dismissNote().
    Q_PROPERTY(QString note READ note NOTIFY noteChanged FINAL)
    /// Set by QML while the staff form is open: a badge then goes to the form, but where the
    /// session asks who somebody is.
    Q_PROPERTY(bool staffOpen MEMBER m_staffOpen NOTIFY openChanged FINAL)
    /// Set by QML while the arrival form is open: a VIN then goes to the form.
    Q_PROPERTY(bool arrivalOpen MEMBER m_arrivalOpen NOTIFY openChanged FINAL)
    /// Set by QML while an operation is on the screen: a wheel's tag is then held against it.
    Q_PROPERTY(bool operationOpen MEMBER m_operationOpen NOTIFY openChanged FINAL)
    Q_PROPERTY(ramplight::Session* session READ session CONSTANT FINAL)
    Q_PROPERTY(ramplight::WallModel* wall READ wall CONSTANT FINAL)
    Q_PROPERTY(ramplight::FormerCars* former READ former CONSTANT FINAL)
    Q_PROPERTY(ramplight::BaysModel* bays READ bays CONSTANT FINAL)
    Q_PROPERTY(ramplight::BayBoard* board READ board CONSTANT FINAL)
    Q_PROPERTY(ramplight::PlanView* plan READ plan CONSTANT FINAL)
    Q_PROPERTY(ramplight::PlannedJob* plannedJob READ plannedJob CONSTANT FINAL)
    Q_PROPERTY(ramplight::WhatIfView* whatIf READ whatIf CONSTANT FINAL)
    Q_PROPERTY(ramplight::MyNext* myNext READ myNext CONSTANT FINAL)
    Q_PROPERTY(ramplight::PeopleModel* people READ people CONSTANT FINAL)
    Q_PROPERTY(ramplight::CarView* car READ car CONSTANT FINAL)
    Q_PROPERTY(ramplight::OperationView* operation READ operation CONSTANT FINAL)
    Q_PROPERTY(ramplight::BeforeAfter* beforeAfter READ beforeAfter CONSTANT FINAL)
    Q_PROPERTY(ramplight::TogetherView* together READ together CONSTANT FINAL)
    Q_PROPERTY(ramplight::ArrivalView* arrival READ arrival CONSTANT FINAL)
    Q_PROPERTY(ramplight::WalkRound* walkRound READ walkRound CONSTANT FINAL)
    Q_PROPERTY(ramplight::TranscriptsView* transcripts READ transcripts CONSTANT FINAL)
    Q_PROPERTY(ramplight::SpeechReview* review READ review CONSTANT FINAL)
    Q_PROPERTY(ramplight::StaffView* staff READ staff CONSTANT FINAL)
    Q_PROPERTY(ramplight::SettingsView* settings READ settings CONSTANT FINAL)
    Q_PROPERTY(ramplight::ScreenView* screen READ screen CONSTANT FINAL)
    Q_PROPERTY(ramplight::PhoneCamera* phone READ phone CONSTANT FINAL)
    Q_PROPERTY(ramplight::PhoneAddress* phoneAddress READ phoneAddress CONSTANT FINAL)
    Q_PROPERTY(ramplight::BackupView* backups READ backups CONSTANT FINAL)
    Q_PROPERTY(ramplight::ServerView* server READ server CONSTANT FINAL)
    Q_PROPERTY(ramplight::RecoveryView* recovery READ recovery CONSTANT FINAL)
    Q_PROPERTY(ramplight::SetupView* setup READ setup CONSTANT FINAL)
    Q_PROPERTY(ramplight::RecordView* record READ record CONSTANT FINAL)
    Q_PROPERTY(ramplight::PaperView* paper READ paper CONSTANT FINAL)
    Q_PROPERTY(ramplight::PrinterView* printer READ printer CONSTANT FINAL)
    Q_PROPERTY(ramplight::DropModel* dropped READ dropped CONSTANT FINAL)
    Q_PROPERTY(ramplight::Camera* camera READ camera CONSTANT FINAL)
    /// The work on which the timer of who is signed in runs; empty and 0 when none does.
    Q_PROPERTY(QString myCarId READ myCarId NOTIFY myWorkChanged FINAL)
    Q_PROPERTY(int myOperationId READ myOperationId NOTIFY myWorkChanged FINAL)
    Q_PROPERTY(QString myTitle READ myTitle NOTIFY myWorkChanged FINAL)
    Q_PROPERTY(QString myWords READ myWords NOTIFY myWorkChanged FINAL) ///< "R-208 · 38 min"
    /// Where somebody was when the kiosk froze, for Navigator.restore(); empty.
    Q_PROPERTY(QString lastPlace READ lastPlace CONSTANT FINAL)
    /// Warnings about work that nobody here can legally finish; the wall shows how many.
    Q_PROPERTY(QStringList houseWarnings READ houseWarnings NOTIFY houseWarningsChanged FINAL)
    /// The clock here is behind what was written already; empty where it is not.
    Q_PROPERTY(QString clockWarning READ clockWarning NOTIFY clockWarningChanged FINAL)

public:
    /// What the shell is built on; all outlive it.
    struct Services
    {
        Desk& desk;
        const Clock& clock;
        const Catalogue& catalogue;
        DemoMaker demo; ///< empty: no demo workshop is offered
        Ticker::Steady steady;
        ScreenSettings screen = {};
        ScreenKeeper keepScreen = {};
        PlanPace planning = {};
        PhoneSettings phone = {};
        PhoneKeeper keepPhone = {};
        PrinterKeeper keepPrinter = {};
        BackupPort* backups = nullptr; ///< null: none are made
        QString lastPlace = {};
        PlaceKeeper keepPlace = {}; ///< empty: nobody keeps it
        CameraMaker camera = {};
    };

    explicit Shell(Services services, QObject* parent = nullptr);

    /// Reads the site and the cards for the first time and starts the clock.
    void start();

    [[nodiscard]] QString siteName() const { return m_book.site().name; }
    [[nodiscard]] bool demo() const { return m_book.site().demo; }
    [[nodiscard]] bool siteSetUp() const { return m_book.site().isSetUp(); }
    [[nodiscard]] bool siteRead() const { return m_book.isRead(); }
    [[nodiscard]] QString standingLine() const { return m_book.catalogue().standingLine; }
    [[nodiscard]] QString clockWords() const;
    [[nodiscard]] QString dayWords() const;
    [[nodiscard]] QString today() const;
    [[nodiscard]] QString storeFault() const { return m_storeFault; }
    [[nodiscard]] QString note() const { return m_note; }
    [[nodiscard]] Session* session() { return &m_session; }
    [[nodiscard]] WallModel* wall() { return &m_wall; }
    [[nodiscard]] FormerCars* former() { return &m_former; }
    [[nodiscard]] BaysModel* bays() { return &m_bays; }
    [[nodiscard]] BayBoard* board() { return &m_board; }
    [[nodiscard]] PlanView* plan() { return &m_planView; }
    [[nodiscard]] PlannedJob* plannedJob() { return &m_plannedJob; }
    [[nodiscard]] WhatIfView* whatIf() { return &m_whatIf; }
    [[nodiscard]] MyNext* myNext() { return &m_myNext; }
    [[nodiscard]] PlanService& plans() { return m_plans; }
    [[nodiscard]] PeopleModel* people() { return &m_people; }
    [[nodiscard]] CarView* car() { return &m_car; }
    [[nodiscard]] OperationView* operation() { return &m_operation; }
    [[nodiscard]] BeforeAfter* beforeAfter() { return &m_beforeAfter; }
    [[nodiscard]] TogetherView* together() { return &m_together; }
    [[nodiscard]] ArrivalView* arrival() { return &m_arrival; }
    [[nodiscard]] WalkRound* walkRound() { return &m_walkRound; }
    [[nodiscard]] TranscriptsView* transcripts() { return &m_transcripts; }
    [[nodiscard]] SpeechReview* review() { return &m_review; }
    [[nodiscard]] StaffView* staff() { return &m_staff; }
    [[nodiscard]] SettingsView* settings() { return &m_settings; }
    [[nodiscard]] ScreenView* screen() { return &m_screen; }
    [[nodiscard]] PhoneCamera* phone() { return &m_phone; }
    [[nodiscard]] PhoneAddress* phoneAddress() { return &m_phoneAddress; }
    [[nodiscard]] BackupView* backups() { return &m_backups; }
    [[nodiscard]] ServerView* server() { return &m_server; }
    [[nodiscard]] RecoveryView* recovery() { return &m_recovery; }
    [[nodiscard]] SetupView* setup() { return &m_setup; }
    [[nodiscard]] RecordView* record() { return &m_record; }
    [[nodiscard]] PaperView* paper() { return &m_paper; }
    [[nodiscard]] PrinterView* printer() { return &m_printer; }
    [[nodiscard]] DropModel* dropped() { return &m_dropped; }
    [[nodiscard]] Camera* camera() { return m_camera.get(); }
    [[nodiscard]] QString myCarId() const { return m_myWork.carId; }
    [[nodiscard]] int myOperationId() const { return m_myWork.operationId; }
    [[nodiscard]] QString myTitle() const { return m_myWork.title; }
    [[nodiscard]] QString myWords() const { return m_myWork.words; }
    [[nodiscard]] QStringList houseWarnings() const { return m_staff.warnings(); }
    [[nodiscard]] QString clockWarning() const { return m_clockWarning; }
    [[nodiscard]] ScanRouter* scans() { return &m_scans; }
    [[nodiscard]] Ticker& ticker() { return m_ticker; }
    [[nodiscard]] std::shared_ptr<RecordPagesShelf> pages() const { return m_pages; }
    [[nodiscard]] std::shared_ptr<RecordPagesShelf> papers() const { return m_papers; }

    [[nodiscard]] QString lastPlace() const { return m_lastPlace; }

    /// The trail went somewhere.
    Q_INVOKABLE void keepPlace(const QString& place);
    Q_INVOKABLE void dismissNote();
    /// Tries the store again after a fault.
    Q_INVOKABLE void tryStoreAgain();

signals:
    void siteChanged();
    void minute();
    void storeFaultChanged();
    void noteChanged();
    void openChanged();
    void houseWarningsChanged();
    void clockWarningChanged();
    void myWorkChanged();
    /// Go to this car (a label or VIN was scanned).
    void carWanted(const QString& carId);
    /// Go to this operation (the tag of its wheel was scanned).
    void operationWanted(const QString& carId, int operationId);
    /// Go to the walk-round of a car that has just come in.
    void walkRoundWanted(const QString& carId);
    /// Go to the arrival form, already begun with this VIN.
    void arrivalWanted(const QString& vin);
    /// Go back to the wall, which shows all cars: nobody touched it for the lock time.
    void wallWanted();

private:
    struct MyWork
    {
        QString carId;
        int operationId = 0;
        QString title;
        QString words;
        friend bool operator==(const MyWork&, const MyWork&) = default;
    };

    void lookForMyWork();
    void lookAtTheClock();
    void carLabel(const QString& code);
    /// Of a car that was withdrawn.
    void formerLabel(const QString& code);
    void wheelTag(const QString& code);
    void vin(const QString& vin);
    void say(const QString& words);

    Desk& m_desk;
    Ticker m_ticker;
    SiteBook m_book;
    CardFeed m_feed;
    ShiftEnd m_shiftEnd;
    Session m_session;
    PlanService m_plans;
    WallModel m_wall;
    FormerCars m_former;
    BaysModel m_bays;
    BayBoard m_board;
    PlanView m_planView;
    PlannedJob m_plannedJob;
    WhatIfView m_whatIf;
    MyNext m_myNext;
    PeopleModel m_people;
    CarView m_car;
    OperationView m_operation;
    BeforeAfter m_beforeAfter;
    WalkRound m_walkRound;
    TogetherView m_together;
    ArrivalView m_arrival;
    TranscriptsView m_transcripts;
    SpeechReview m_review;
    StaffView m_staff;
    SettingsView m_settings;
    ScreenView m_screen;
    BackupView m_backups;
    ServerView m_server;
    RecoveryView m_recovery;
    SetupView m_setup;
    std::shared_ptr<RecordPagesShelf> m_pages;
    RecordView m_record;
    std::shared_ptr<RecordPagesShelf> m_papers;
    PaperView m_paper;
    PrinterView m_printer;
    DropModel m_dropped;
    std::unique_ptr<Camera> m_camera;
    PhoneSettings m_phoneSettings; ///< as they were at the start
    PhoneCamera m_phone;
    PhoneAddress m_phoneAddress;
    ScanRouter m_scans;
    MyWork m_myWork;
    QString m_lastPlace;
    PlaceKeeper m_keepPlace;
    QString m_storeFault;
    QString m_note;
    QString m_clockWarning;
    bool m_staffOpen = false;
    bool m_arrivalOpen = false;
    bool m_operationOpen = false;
};

} // namespace ramplight
