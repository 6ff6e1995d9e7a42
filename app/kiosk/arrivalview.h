// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/ask.h"
#include "kiosk/findingdraft.h"
#include "kiosk/identitydraft.h"
#include "kiosk/listbase.h"

#include <QObject>
#include <QtQmlIntegration>

namespace ramplight {

struct DraftFindingRow
{
    int draftId = 0;
    QString words;
    QString placeId;
    FindingData data;

    [[nodiscard]] int key() const { return draftId; }
    friend bool operator==(const DraftFindingRow&, const DraftFindingRow&) = default;
};

/// Findings of a car that is not written yet. Roles: draftId, words, placeId. GUI thread.
class DraftFindings : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the arrival")

public:
    explicit DraftFindings(QObject* parent = nullptr);
    void setRows(std::vector<DraftFindingRow> rows);
    [[nodiscard]] const std::vector<DraftFindingRow>& rows() const;
};

/// A car comes in: by hand, or out of an appraisal file. What is typed stays until it is written.
/// Answers through `ask`; `arrived` names the car. GUI thread.
class ArrivalView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    Q_PROPERTY(ramplight::Ask* ask READ ask CONSTANT FINAL)
    Q_PROPERTY(ramplight::IdentityDraft* identity READ identity CONSTANT FINAL)
    Q_PROPERTY(QString promised READ promised WRITE setPromised NOTIFY changed FINAL) ///< ISO date
    /// Days to touch instead of typing: ids are ISO dates, titles "today", "Thu".
    Q_PROPERTY(ramplight::Choices* days READ days CONSTANT FINAL)
    Q_PROPERTY(QString parking READ parking WRITE setParking NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::FindingDraft* finding READ finding CONSTANT FINAL)
    Q_PROPERTY(ramplight::DraftFindings* findings READ findings CONSTANT FINAL)
    /// Places that were looked at and are in order (several). One with a finding is not.
    Q_PROPERTY(ramplight::Choices* sound READ sound CONSTANT FINAL)
    /// Place id -> Wall.Mark of the findings so far, for the drawing.
    Q_PROPERTY(QVariantMap marks READ marks NOTIFY changed FINAL)
    /// The walk-round is complete: places without a finding are listed as not looked at.
    Q_PROPERTY(bool appraisalFinished READ appraisalFinished WRITE setAppraisalFinished NOTIFY
                   changed FINAL)
    Q_PROPERTY(bool canSave READ canSave NOTIFY changed FINAL)
    /// What an import found wrong, line by line; empty.
    Q_PROPERTY(QStringList importFaults READ importFaults NOTIFY changed FINAL)

public:
    ArrivalView(Desk& desk, Session& session, SiteBook& book, Ticker& ticker,
                QObject* parent = nullptr);

    [[nodiscard]] Ask* ask() { return &m_ask; }
    [[nodiscard]] IdentityDraft* identity() { return &m_identity; }
    [[nodiscard]] QString promised() const;
    void setPromised(const QString& isoDate);
    [[nodiscard]] Choices* days() { return &m_days; }
    [[nodiscard]] QString parking() const { return m_parking; }
    void setParking(const QString& words);
    [[nodiscard]] FindingDraft* finding() { return &m_finding; }
    [[nodiscard]] DraftFindings* findings() { return &m_findings; }
    [[nodiscard]] Choices* sound() { return &m_sound; }
    [[nodiscard]] QVariantMap marks() const;
    [[nodiscard]] bool appraisalFinished() const { return m_finished; }
    void setAppraisalFinished(bool finished);
    [[nodiscard]] bool canSave() const;
    [[nodiscard]] QStringList importFaults() const { return m_importFaults; }

    /// Empties the form; a VIN that was scanned may start it.
    Q_INVOKABLE void begin(const QString& vin);
    /// Puts what `finding` holds on the list.
    Q_INVOKABLE void addFinding();
    Q_INVOKABLE void removeFinding(int draftId);
    Q_INVOKABLE void save();
    Q_INVOKABLE void importFile(const QString& path);

signals:
    void changed();
    void arrived(const QString& carId);
    /// Stock numbers that an import brought; alreadyKnown: nothing was changed.
    void imported(const QStringList& stockNumbers, bool alreadyKnown);

private:
    void offerDays();
    void import(const QString& path, PersonId person);

    Desk& m_desk;
    Session& m_session;
    SiteBook& m_book;
    Ticker& m_ticker;
    Ask m_ask;
    IdentityDraft m_identity;
    QDate m_promised;
    Choices m_days;
    QString m_parking;
    FindingDraft m_finding;
    DraftFindings m_findings;
    Choices m_sound;
    int m_lastDraft = 0;
    bool m_finished = true;
    QStringList m_importFaults;
    CommandId m_command;
    CarId m_id; // of the car that the form becomes: the same until it is written
};

} // namespace ramplight
