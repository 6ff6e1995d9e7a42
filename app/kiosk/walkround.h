// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/carview.h"
#include "kiosk/walkroundlists.h"
#include "kiosk/walkroundpaint.h"
#include "kiosk/walkroundplaces.h"
#include "kiosk/walkroundtyres.h"

#include <QObject>
#include <QtQmlIntegration>

#include <deque>

namespace ramplight {

/// An appraisal by touch of the car that CarView has open: place, condition, severity, remedy, and
/// it is in the ledger. Nothing is kept here but what is half said; so a power cut costs one
/// finding at most, and what somebody else records on the same car shows as it comes. Also for
/// something else found during an operation. Answers through `ask`. GUI thread.
class WalkRound : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    Q_PROPERTY(ramplight::Ask* ask READ ask CONSTANT FINAL)
    Q_PROPERTY(ramplight::CarView* car READ car CONSTANT FINAL)
    /// The operation from which it was called; 0: the appraisal itself.
    Q_PROPERTY(int operationId READ operationId NOTIFY changed FINAL)
    // ---- the drawing
    Q_PROPERTY(ramplight::WalkViews* views READ views CONSTANT FINAL)
    Q_PROPERTY(QString view READ view WRITE setView NOTIFY viewChanged FINAL) ///< WalkView
    /// Name of the outline or scheme that shows the view.
    Q_PROPERTY(QString drawing READ drawing NOTIFY viewChanged FINAL)
    Q_PROPERTY(bool opened READ opened NOTIFY viewChanged FINAL)      ///< a car laid open
    Q_PROPERTY(QStringList absent READ absent NOTIFY changed FINAL)   ///< not on this car
    Q_PROPERTY(QStringList among READ among NOTIFY viewChanged FINAL) ///< touched in this view
    Q_PROPERTY(ramplight::WalkPlaces* places READ places CONSTANT FINAL)
    Q_PROPERTY(QVariantMap marks READ marks NOTIFY changed FINAL)
    /// Places that nobody has looked at: of the car, of the view, of its left and right side.
    Q_PROPERTY(int left READ left NOTIFY changed FINAL)
    Q_PROPERTY(int leftHere READ leftHere NOTIFY changed FINAL)
    Q_PROPERTY(int leftOnLeft READ leftOnLeft NOTIFY changed FINAL)
    Q_PROPERTY(int leftOnRight READ leftOnRight NOTIFY changed FINAL)
    Q_PROPERTY(QString leftSideWords READ leftSideWords NOTIFY changed FINAL)   ///< "Near side"
    Q_PROPERTY(QString rightSideWords READ rightSideWords NOTIFY changed FINAL) ///< "Off side"
    // ---- the place that was touched
    Q_PROPERTY(QString place READ place NOTIFY placeChanged FINAL)
    Q_PROPERTY(QString placeWords READ placeWords NOTIFY placeChanged FINAL)
    /// The tyre on this wheel or the wheel under this tyre, and its words; empty.
    Q_PROPERTY(QString otherPlace READ otherPlace NOTIFY placeChanged FINAL)
    Q_PROPERTY(QString otherPlaceWords READ otherPlaceWords NOTIFY placeChanged FINAL)
    Q_PROPERTY(ramplight::WalkFindings* here READ here CONSTANT FINAL)
    /// Likely ones are in the group "likely", the others in "more"; so with the remedies.
    Q_PROPERTY(ramplight::Choices* conditions READ conditions CONSTANT FINAL)
    Q_PROPERTY(ramplight::Choices* remedies READ remedies CONSTANT FINAL)
    /// Severity, count, size, note of what is being said.
    Q_PROPERTY(ramplight::FindingDraft* draft READ draft CONSTANT FINAL)
    Q_PROPERTY(bool conditionSaid READ conditionSaid NOTIFY placeChanged FINAL)
    Q_PROPERTY(bool canBeSound READ canBeSound NOTIFY placeChanged FINAL)
    /// "Same again: kerbed, moderate: refurbish", where it makes sense at this place; empty.
    Q_PROPERTY(QString sameWords READ sameWords NOTIFY placeChanged FINAL)
    // ---- what was recorded
    Q_PROPERTY(int lastFinding READ lastFinding NOTIFY changed FINAL) ///< 0: none to take back
    Q_PROPERTY(QString lastWords READ lastWords NOTIFY changed FINAL)
    /// What somebody else has just recorded on this car; empty.
    Q_PROPERTY(QString newsWords READ newsWords NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::WalkFindings* found READ found CONSTANT FINAL) ///< all, newest first
    Q_PROPERTY(ramplight::TyrePad* tyres READ tyres CONSTANT FINAL)
    Q_PROPERTY(ramplight::PaintPad* paint READ paint CONSTANT FINAL)
    // ---- what comes out
    Q_PROPERTY(ramplight::WalkWork* work READ work CONSTANT FINAL)
    Q_PROPERTY(ramplight::WalkSkills* skills READ skills CONSTANT FINAL)
    Q_PROPERTY(int findingCount READ findingCount NOTIFY changed FINAL)
    Q_PROPERTY(QString minutesWords READ minutesWords NOTIFY changed FINAL)
    Q_PROPERTY(QString materialWords READ materialWords NOTIFY changed FINAL)
    // ---- the end
    Q_PROPERTY(ramplight::Offer finishOffer READ finishOffer NOTIFY changed FINAL)
    /// "Body: 12", a line for each view with places that are left.
    Q_PROPERTY(QStringList leftLines READ leftLines NOTIFY changed FINAL)
    /// Safety places among them: each will hold the car.
    Q_PROPERTY(QString holdWords READ holdWords NOTIFY changed FINAL)

public:
    WalkRound(CarView& car, Session& session, SiteBook& book, Ticker& ticker,
              const Catalogue& catalogue, QObject* parent = nullptr);

    [[nodiscard]] Ask* ask() { return &m_ask; }
    [[nodiscard]] CarView* car() { return &m_car; }
    [[nodiscard]] int operationId() const { return m_during.value; }
    [[nodiscard]] WalkViews* views() { return &m_views; }
    [[nodiscard]] QString view() const { return nameOf(m_view); }
    void setView(const QString& view);
    [[nodiscard]] QString drawing() const;
    [[nodiscard]] bool opened() const;
    [[nodiscard]] QStringList absent() const { return m_absent; }
    [[nodiscard]] QStringList among() const;
    [[nodiscard]] WalkPlaces* places() { return &m_places; }
    [[nodiscard]] QVariantMap marks() const { return m_marks; }
    [[nodiscard]] int left() const;
    [[nodiscard]] int leftHere() const;
    [[nodiscard]] int leftOnLeft() const;
    [[nodiscard]] int leftOnRight() const;
    [[nodiscard]] QString leftSideWords() const;
    [[nodiscard]] QString rightSideWords() const;
    [[nodiscard]] QString place() const { return m_place.text; }
    [[nodiscard]] QString placeWords() const;
    [[nodiscard]] QString otherPlace() const;
    [[nodiscard]] QString otherPlaceWords() const;
    [[nodiscard]] WalkFindings* here() { return &m_here; }
    [[nodiscard]] Choices* conditions() { return &m_conditions; }
    [[nodiscard]] Choices* remedies() { return &m_remedies; }
    [[nodiscard]] FindingDraft* draft() { return &m_draft; }
    [[nodiscard]] bool conditionSaid() const { return !m_conditions.current().isEmpty(); }
    [[nodiscard]] bool canBeSound() const;
    [[nodiscard]] QString sameWords() const;
    [[nodiscard]] int lastFinding() const;
    [[nodiscard]] QString lastWords() const;
    [[nodiscard]] QString newsWords() const;
    [[nodiscard]] WalkFindings* found() { return &m_found; }
    [[nodiscard]] TyrePad* tyres() { return &m_tyres; }
    [[nodiscard]] PaintPad* paint() { return &m_paint; }
    [[nodiscard]] WalkWork* work() { return &m_work; }
    [[nodiscard]] WalkSkills* skills() { return &m_skills; }
    [[nodiscard]] int findingCount() const;
    [[nodiscard]] QString minutesWords() const { return m_minutesWords; }
    [[nodiscard]] QString materialWords() const { return m_materialWords; }
    [[nodiscard]] Offer finishOffer() const;
    [[nodiscard]] QStringList leftLines() const;
    [[nodiscard]] QString holdWords() const;

    /// Of a car, or of something found during an operation on it (0: the appraisal).
    Q_INVOKABLE void begin(const QString& carId, int operationId);
    /// A place on the drawing, a field beside it, or the other of wheel and tyre. Empty: none.
    Q_INVOKABLE void touch(const QString& placeId);
    Q_INVOKABLE void sayCondition(const QString& condition);
    Q_INVOKABLE void saySeverity(const QString& severity);
    /// Records what was said with this remedy.
    Q_INVOKABLE void record(const QString& remedy);
    /// Records at this place what was last recorded at another one.
    Q_INVOKABLE void recordSame();
    Q_INVOKABLE void foundSound();     ///< the place that was touched
    Q_INVOKABLE void foundViewSound(); ///< what nobody has looked at yet in this view
    Q_INVOKABLE void foundSideSound(bool leftSide);
    /// The readings on the paint pad, for the place that was touched.
    Q_INVOKABLE void recordPaint();
    /// Its paint stands out, and it was seen that it was repaired before.
    Q_INVOKABLE void confirmRepair();
    /// It was recorded by mistake: one touch from the last one, two from any other.
    Q_INVOKABLE void takeBack(int findingId);
    /// Work that is not wanted on this car; never a safety item. What it answered is disclosed.
    Q_INVOKABLE void takeOut(int operationId, const QString& reason);
    Q_INVOKABLE void finish();

    /// The next begin() of this car shows this place at once: somebody goes there from a review.
    Q_INVOKABLE void wantPlace(const QString& placeId);

    // ---- for the review of a spoken walk-round
    [[nodiscard]] QString drawingOf(WalkView view) const;
    struct Step
    {
        QString what;
        QString why;
        /// Made when its turn comes: by then the car is as the steps before it left it.
        std::function<std::vector<CarCommand>()> commands;
        std::function<void(const CarOutcome&)> then;
    };

    /// One after the other: a hand is quicker than a disk, and nothing that was touched is lost.
    void put(Step step);

signals:
    void changed();
    void viewChanged();
    void placeChanged();
    void finished();

private:
    void renumber(const QVariantMap& findings, const QVariantMap& operations);
    void putNext();
    /// What it records is then the last finding.
    void putFinding(const QString& what, CarCommand command);
    void rebuild();
    void rebuildPlaces();
    void rebuildWork();
    void setLast(const CarState& car, FindingId finding);
    /// What was recorded last, as long as it stands; null: nothing.
    [[nodiscard]] const Finding* last() const;
    void offerConditions();
    void offerRemedies();
    void recordTyre(const PlaceId& place, const std::optional<Tread>& tread,
                    const QString& dateCode);
    void recordSound(const QString& what, std::optional<Side> side);
    [[nodiscard]] std::vector<CarCommand> tyreCommands(const PlaceId& place,
                                                       const std::optional<Tread>& tread,
                                                       const QString& dateCode) const;
    void recordData(FindingData data);
    void sayDone();
    [[nodiscard]] bool isRead() const;

    CarView& m_car;
    Session& m_session;
    SiteBook& m_book;
    Ticker& m_ticker;
    const Catalogue& m_catalogue;
    Ask m_ask;
    std::deque<Step> m_steps;
    CarId m_id;
    OperationId m_during;
    WalkView m_view = WalkView::Body;
    WalkViews m_views;
    WalkPlaces m_places;
    QVariantMap m_marks;
    QStringList m_absent;
    PlaceId m_place;
    PlaceId m_wanted; ///< see wantPlace()
    WalkFindings m_here;
    WalkFindings m_found;
    Choices m_conditions;
    Choices m_remedies;
    FindingDraft m_draft;
    std::optional<FindingData> m_same;
    FindingId m_last;
    FindingData m_lastData; ///< by which it is known again where findings are numbered otherwise
    TyrePad m_tyres;
    PaintPad m_paint;
    WalkWork m_work;
    WalkSkills m_skills;
    QString m_minutesWords;
    QString m_materialWords;
};

} // namespace ramplight
