// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/reviewing.h"
#include "kiosk/reviewlists.h"
#include "kiosk/spokenwords.h"
#include "kiosk/walkround.h"

#include <QImage>
#include <QObject>
#include <QVariantMap>
#include <QtQmlIntegration>

namespace ramplight {

/// The review of what was understood of a spoken walk-round, on the car that the walk-round has
/// open: each draft is kept, changed or dropped, by the commands of appraising by touch. Nothing is
/// kept here but which draft is looked at. Answers through the walk-round's `ask`. GUI thread.
class SpeechReview : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    Q_PROPERTY(ramplight::WalkRound* walk READ walk CONSTANT FINAL)
    Q_PROPERTY(ramplight::Ask* ask READ ask CONSTANT FINAL)
    /// The car is read and has a spoken walk-round.
    Q_PROPERTY(bool ready READ ready NOTIFY changed FINAL)
    /// Several were read for this car: which of them, "2 of 3"; empty when there is one.
    Q_PROPERTY(QString whichWords READ whichWords NOTIFY changed FINAL)
    Q_PROPERTY(QString aboutWords READ aboutWords NOTIFY changed FINAL) ///< file and progress
    // ---- the words
    Q_PROPERTY(ramplight::SpokenWords* words READ words CONSTANT FINAL)
    Q_PROPERTY(QString wordsFault READ wordsFault NOTIFY wordsRead FINAL) ///< empty: they are here
    Q_PROPERTY(int wordsRow READ wordsRow NOTIFY changed FINAL) ///< of the chosen draft; -1
    /// Path of the recording; empty when it is not here.
    Q_PROPERTY(QString recording READ recording NOTIFY wordsRead FINAL)
    // ---- the drawing
    Q_PROPERTY(QString drawing READ drawing NOTIFY changed FINAL)
    Q_PROPERTY(bool opened READ opened NOTIFY changed FINAL) ///< a car laid open
    /// Places of drafts: to be decided, or decided.
    Q_PROPERTY(QVariantMap marks READ marks NOTIFY changed FINAL)
    // ---- one thing after the other
    Q_PROPERTY(ramplight::ReviewStages* stages READ stages CONSTANT FINAL)
    Q_PROPERTY(Stage stage READ stage WRITE setStage NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::ReviewDrafts* sure READ sure CONSTANT FINAL)
    Q_PROPERTY(ramplight::ReviewDepths* depths READ depths CONSTANT FINAL)
    Q_PROPERTY(ramplight::ReviewPlaces* sound READ sound CONSTANT FINAL)
    Q_PROPERTY(ramplight::ReviewPlaces* notMentioned READ notMentioned CONSTANT FINAL)
    Q_PROPERTY(int depthsToKeep READ depthsToKeep NOTIFY changed FINAL)   ///< in one touch
    Q_PROPERTY(QStringList factLines READ factLines NOTIFY changed FINAL) ///< said and not known
    Q_PROPERTY(bool factsCanBeTaken READ factsCanBeTaken NOTIFY changed FINAL)
    /// Why an odometer that was said is not taken; empty.
    Q_PROPERTY(QString odometerWords READ odometerWords NOTIFY changed FINAL)
    // ---- the draft that is looked at
    Q_PROPERTY(int chosen READ chosen NOTIFY changed FINAL) ///< -1: none
    Q_PROPERTY(QString place READ place NOTIFY changed FINAL)
    Q_PROPERTY(QString placeWords READ placeWords NOTIFY changed FINAL)
    Q_PROPERTY(QString whatWords READ whatWords NOTIFY changed FINAL)
    Q_PROPERTY(QString todoWords READ todoWords NOTIFY changed FINAL)
    Q_PROPERTY(QString quote READ quote NOTIFY changed FINAL)
    Q_PROPERTY(QString momentWords READ momentWords NOTIFY changed FINAL) ///< "07:05"; empty
    Q_PROPERTY(int moment READ moment NOTIFY changed FINAL) ///< seconds of the recording; -1
    Q_PROPERTY(QString likelyWords READ likelyWords NOTIFY changed FINAL)
    Q_PROPERTY(bool chosenOpen READ chosenOpen NOTIFY changed FINAL)
    /// "Kept", "Dropped", "Kept with a change: ..."; empty while it is open.
    Q_PROPERTY(QString decidedWords READ decidedWords NOTIFY changed FINAL)
    /// A picture of the recording has a place to go: it is open, or stands as a finding.
    Q_PROPERTY(bool takesPicture READ takesPicture NOTIFY changed FINAL)
    /// What the sheet starts from that changes it.
    Q_PROPERTY(ramplight::FindingDraft* change READ change CONSTANT FINAL)
    // ---- what was decided last, here
    Q_PROPERTY(QString lastWords READ lastWords NOTIFY changed FINAL) ///< empty: nothing to undo

public:
    enum Stage { Doubtful, Sure, Tyres, Sound, Car, NotMentioned, Done };
    Q_ENUM(Stage)

    SpeechReview(Desk& desk, WalkRound& walk, SiteBook& book, QObject* parent = nullptr);

    [[nodiscard]] WalkRound* walk() { return &m_walk; }
    [[nodiscard]] Ask* ask() { return m_walk.ask(); }
    [[nodiscard]] bool ready() const { return review() != nullptr; }
    [[nodiscard]] QString whichWords() const;
    [[nodiscard]] QString aboutWords() const;
    [[nodiscard]] SpokenWords* words() { return &m_words; }
    [[nodiscard]] QString wordsFault() const { return m_wordsFault; }
    [[nodiscard]] int wordsRow() const { return m_words.rowOf(m_chosen); }
    [[nodiscard]] QString recording() const { return m_recording; }
    [[nodiscard]] QString drawing() const;
    [[nodiscard]] bool opened() const;
    [[nodiscard]] QVariantMap marks() const { return m_marks; }
    [[nodiscard]] ReviewStages* stages() { return &m_stages; }
    [[nodiscard]] Stage stage() const { return m_stage; }
    void setStage(Stage stage);
    [[nodiscard]] ReviewDrafts* sure() { return &m_sure; }
    [[nodiscard]] ReviewDepths* depths() { return &m_depths; }
    [[nodiscard]] ReviewPlaces* sound() { return &m_sound; }
    [[nodiscard]] ReviewPlaces* notMentioned() { return &m_notMentioned; }
    [[nodiscard]] int depthsToKeep() const;
    [[nodiscard]] QStringList factLines() const;
    [[nodiscard]] bool factsCanBeTaken() const;
    [[nodiscard]] QString odometerWords() const;
    [[nodiscard]] int chosen() const { return m_chosen; }
    [[nodiscard]] QString place() const;
    [[nodiscard]] QString placeWords() const;
    [[nodiscard]] QString whatWords() const;
    [[nodiscard]] QString todoWords() const;
    [[nodiscard]] QString quote() const;
    [[nodiscard]] QString momentWords() const;
    [[nodiscard]] int moment() const;
    [[nodiscard]] QString likelyWords() const;
    [[nodiscard]] bool chosenOpen() const;
    [[nodiscard]] QString decidedWords() const;
    [[nodiscard]] bool takesPicture() const;
    [[nodiscard]] FindingDraft* change() { return &m_change; }
    [[nodiscard]] QString lastWords() const;

    /// Of a car: its round that has most to decide, the one after it with the next call.
    Q_INVOKABLE void begin(const QString& carId);
    Q_INVOKABLE void showOtherRound();
    /// A draft is looked at; -1: none, the list of the stage shows.
    Q_INVOKABLE void choose(int draft);
    /// A row of the words was touched; link: the number of the draft that was touched, or empty.
    Q_INVOKABLE void chooseInWords(int row, const QString& link);
    /// A place on the drawing was touched: its drafts, one after the other.
    Q_INVOKABLE void chooseAt(const QString& placeId);
    /// The next one, or the one before, among those of its stage that are open.
    Q_INVOKABLE void step(int by);
    Q_INVOKABLE void keep();
    /// A picture of its moment, as the photo "before" of its finding; an open one is kept first.
    Q_INVOKABLE void takePicture(const QImage& picture);
    Q_INVOKABLE void drop();
    /// Puts the draft into `change`; recordChange() records what that says then.
    Q_INVOKABLE void startChange();
    Q_INVOKABLE void recordChange();
    /// The chosen one was decided and is to be decided once more.
    Q_INVOKABLE void reopen();
    /// What was decided last here.
    Q_INVOKABLE void undo();
    Q_INVOKABLE void keepSure();
    Q_INVOKABLE void keepDepths();
    Q_INVOKABLE void keepSound();
    Q_INVOKABLE void takeFacts();

signals:
    void changed();
    void wordsRead();

private:
    [[nodiscard]] const CarState& car() const { return m_walk.car()->car(); }
    [[nodiscard]] const SpokenReview* review() const;
    [[nodiscard]] const SpokenDraft* draft() const;
    [[nodiscard]] DraftDecision decisionOn(const DraftRef& ref) const;
    [[nodiscard]] DraftEnd endOf(const DraftRef& ref) const { return decisionOn(ref).end; }
    [[nodiscard]] DraftRef ref(int draft) const { return {m_transcript, draft}; }
    [[nodiscard]] const PlaceInfo* shownPlace() const;
    [[nodiscard]] int leftIn(Stage stage) const;
    /// That are one figure and wait for no finding.
    [[nodiscard]] std::vector<SpokenDepth> depthsReady() const;
    [[nodiscard]] Stage firstWithWork() const;
    void chooseRound();
    void showRound(const TranscriptId& transcript);
    void readWords();
    void rebuild();
    void rebuildLists();
    [[nodiscard]] std::vector<ReviewDraftRow> sureRows(const SpokenReview& heard) const;
    [[nodiscard]] std::vector<ReviewDepthRow> depthRows(const SpokenReview& heard) const;
    void decided(std::vector<DraftRef> refs, const QString& words);
    void keepThen(std::function<void(const DraftRef&)> then);
    void reopenAll(const std::vector<DraftRef>& refs);
    void keepCorrection(const DraftRef& ref, const std::optional<FindingData>& corrected);
    void put(const QString& what, std::function<std::vector<CarCommand>()> commands,
             std::function<void(const CarOutcome&)> then = {});

    Desk& m_desk;
    WalkRound& m_walk;
    SiteBook& m_book;
    CarId m_id;
    TranscriptId m_transcript;
    ReviewLeft m_left;
    SpokenWords m_words;
    QString m_wordsFault;
    QString m_recording;
    QVariantMap m_marks;
    ReviewStages m_stages;
    Stage m_stage = Done;
    ReviewDrafts m_sure;
    ReviewDepths m_depths;
    ReviewPlaces m_sound;
    ReviewPlaces m_notMentioned;
    int m_chosen = -1;
    PlaceId m_lastPlace; ///< keeps the drawing where it was while no draft is looked at
    FindingDraft m_change;
    DraftRef m_changing;
    std::vector<DraftRef> m_last;
    QString m_lastWords;
    int m_turn = 0; // words of an older round are dropped
};

} // namespace ramplight
