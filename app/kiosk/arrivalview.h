// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/ask.h"
#include "kiosk/cardfeed.h"
#include "kiosk/choices.h"
#include "kiosk/identitydraft.h"
#include "kiosk/settingslists.h"

#include <QObject>
#include <QtQmlIntegration>

namespace ramplight {

/// A car comes in: by hand, or out of an appraisal file. What is typed stays until it is written.
/// Answers through `ask`; `arrived` names the car, whose appraisal then begins. GUI thread.
class ArrivalView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    Q_PROPERTY(ramplight::Ask* ask READ ask CONSTANT FINAL)
    Q_PROPERTY(ramplight::IdentityDraft* identity READ identity CONSTANT FINAL)
    /// A car in prep has the VIN that was typed: in words; empty.
    Q_PROPERTY(QString sameVinWords READ sameVinWords NOTIFY changed FINAL)
    Q_PROPERTY(QString promised READ promised WRITE setPromised NOTIFY changed FINAL) ///< ISO date
    /// Days to touch instead of typing: ids are ISO dates, titles "today", "Thu".
    Q_PROPERTY(ramplight::Choices* days READ days CONSTANT FINAL)
    Q_PROPERTY(QString parking READ parking WRITE setParking NOTIFY changed FINAL)
    Q_PROPERTY(bool canSave READ canSave NOTIFY changed FINAL)
    /// Something was entered beside the VIN: whoever comes to the form finds it as it was left.
    Q_PROPERTY(bool begun READ isBegun NOTIFY changed FINAL)
    /// Appraisal files that were brought, the newest first; filesWords: why there is none.
    Q_PROPERTY(ramplight::FilesModel* files READ files CONSTANT FINAL)
    Q_PROPERTY(QString filesWords READ filesWords NOTIFY changed FINAL)
    /// What an import found wrong, line by line; empty.
    Q_PROPERTY(QStringList importFaults READ importFaults NOTIFY changed FINAL)

public:
    ArrivalView(Desk& desk, Session& session, SiteBook& book, CardFeed& feed, Ticker& ticker,
                QObject* parent = nullptr);

    [[nodiscard]] Ask* ask() { return &m_ask; }
    [[nodiscard]] IdentityDraft* identity() { return &m_identity; }
    [[nodiscard]] QString sameVinWords() const;
    [[nodiscard]] QString promised() const;
    void setPromised(const QString& isoDate);
    [[nodiscard]] Choices* days() { return &m_days; }
    [[nodiscard]] QString parking() const { return m_parking; }
    void setParking(const QString& words);
    [[nodiscard]] bool canSave() const;
    [[nodiscard]] bool isBegun() const;
    [[nodiscard]] FilesModel* files() { return &m_files; }
    [[nodiscard]] QString filesWords() const { return m_filesWords; }
    [[nodiscard]] QStringList importFaults() const { return m_importFaults; }

    /// Empties the form; a VIN that was scanned may start it.
    Q_INVOKABLE void begin(const QString& vin);
    Q_INVOKABLE void save();
    /// Looks where files are brought; the list follows.
    Q_INVOKABLE void listFiles();
    Q_INVOKABLE void importFile(const QString& path);
    /// Of a car in prep; empty: the cards have none with that stock number (yet).
    Q_INVOKABLE QString carOf(const QString& stockNumber) const;

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
    CardFeed& m_feed;
    Ticker& m_ticker;
    Ask m_ask;
    IdentityDraft m_identity;
    QDate m_promised;
    Choices m_days;
    QString m_parking;
    FilesModel m_files;
    QString m_filesWords;
    QStringList m_importFaults;
    CommandId m_command;
    CarId m_id; // of the car that the form becomes: the same until it is written
};

} // namespace ramplight
