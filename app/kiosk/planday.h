// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/plannedjob.h"
#include "kiosk/planview.h"

#include <QColor>
#include <QFont>
#include <QQuickPaintedItem>

namespace ramplight {

/// One day of the plan: hours across, a lane for each bay or person, a bar for each piece of work.
/// Painted once and then moved, so that dragging the days costs no painting. GUI thread.
class PlanDay : public QQuickPaintedItem
{
    Q_OBJECT
    QML_ELEMENT
    Q_PROPERTY(ramplight::PlanView* view READ view WRITE setView NOTIFY dayChanged FINAL)
    Q_PROPERTY(ramplight::PlannedJob* job READ job WRITE setJob NOTIFY dayChanged FINAL)
    Q_PROPERTY(int day READ day WRITE setDay NOTIFY dayChanged FINAL)
    Q_PROPERTY(bool ofPeople READ ofPeople WRITE setOfPeople NOTIFY dayChanged FINAL)
    /// Pixels of the head with the hours, of a lane, and of a millimetre.
    Q_PROPERTY(double headHeight MEMBER m_headHeight NOTIFY lookChanged FINAL)
    Q_PROPERTY(double laneHeight MEMBER m_laneHeight NOTIFY lookChanged FINAL)
    Q_PROPERTY(double mm MEMBER m_mm NOTIFY lookChanged FINAL)
    Q_PROPERTY(QString fontFamily MEMBER m_fontFamily NOTIFY lookChanged FINAL)
    Q_PROPERTY(int fontPixels MEMBER m_fontPixels NOTIFY lookChanged FINAL) ///< of the bars
    Q_PROPERTY(int hourPixels MEMBER m_hourPixels NOTIFY lookChanged FINAL)
    /// The part of it that can be seen, in pixels from its left: words are written inside that.
    Q_PROPERTY(double shownFrom MEMBER m_shownFrom NOTIFY lookChanged FINAL)
    Q_PROPERTY(double shownTo MEMBER m_shownTo NOTIFY lookChanged FINAL)
    Q_PROPERTY(QColor ground MEMBER m_ground NOTIFY lookChanged FINAL)
    Q_PROPERTY(QColor raised MEMBER m_raised NOTIFY lookChanged FINAL)
    Q_PROPERTY(QColor groundInk MEMBER m_groundInk NOTIFY lookChanged FINAL)
    Q_PROPERTY(QColor groundLine MEMBER m_groundLine NOTIFY lookChanged FINAL)
    Q_PROPERTY(QColor paper MEMBER m_paper NOTIFY lookChanged FINAL)
    Q_PROPERTY(QColor ink MEMBER m_ink NOTIFY lookChanged FINAL)
    Q_PROPERTY(QColor inkMuted MEMBER m_inkMuted NOTIFY lookChanged FINAL)
    Q_PROPERTY(QColor mark MEMBER m_mark NOTIFY lookChanged FINAL) ///< around what is chosen

public:
    explicit PlanDay(QQuickItem* parent = nullptr);

    [[nodiscard]] PlanView* view() const { return m_view; }
    void setView(PlanView* view);
    [[nodiscard]] PlannedJob* job() const { return m_job; }
    void setJob(PlannedJob* job);
    [[nodiscard]] int day() const { return m_day; }
    void setDay(int day);
    [[nodiscard]] bool ofPeople() const { return m_ofPeople; }
    void setOfPeople(bool ofPeople);

    void paint(QPainter* painter) override;

    /// The job at a point, or the nearest in its lane within reach pixels; -1: none.
    Q_INVOKABLE int jobAt(double x, double y, double reach) const;
    Q_INVOKABLE int laneAt(double y) const;
    /// Local minute; of the day's end beyond it.
    Q_INVOKABLE int minuteAt(double x) const;
    /// Where the words of a job's bar are written; null when it is not here or cannot be seen.
    Q_INVOKABLE QRectF wordsOf(int job) const;
    /// The middle of a job's bar in this day, for what points at it; (-1, -1) when it is not here.
    Q_INVOKABLE QPointF middleOf(int job) const;

signals:
    void dayChanged();
    void lookChanged();

private:
    [[nodiscard]] const SheetDay* sheetDay() const;
    [[nodiscard]] double xOf(int minute) const;
    [[nodiscard]] QRectF boxOf(const SheetBar& bar) const;
    void paintHours(QPainter& painter, const SheetDay& day) const;
    void paintBar(QPainter& painter, const SheetBar& bar) const;
    void paintWords(QPainter& painter, const SheetBar& bar) const;
    [[nodiscard]] QRectF seenOf(const SheetBar& bar) const;
    [[nodiscard]] QFont fontOf(int pixels, bool strong) const;

    PlanView* m_view = nullptr;
    PlannedJob* m_job = nullptr;
    int m_day = 0;
    bool m_ofPeople = false;
    double m_headHeight = 40;
    double m_laneHeight = 80;
    double m_mm = 3.6;
    QString m_fontFamily;
    int m_fontPixels = 16;
    int m_hourPixels = 16;
    double m_shownFrom = 0;
    double m_shownTo = 1e9;
    QColor m_ground;
    QColor m_raised;
    QColor m_groundInk;
    QColor m_groundLine;
    QColor m_paper;
    QColor m_ink;
    QColor m_inkMuted;
    QColor m_mark;
};

} // namespace ramplight
