// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/baysmodel.h"
#include "kiosk/choices.h"
#include "kiosk/peoplemodel.h"
#include "kiosk/siteasks.h"

#include <QObject>
#include <QtQmlIntegration>

#include <memory>

namespace ramplight {

/// People and bays of the workshop. Every change asks for the PIN again of somebody who may manage.
/// Use: edit(personId) or edit(0) for a new one, fill the form, save(). Answers through `ask`.
/// GUI thread.
class StaffView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    Q_PROPERTY(ramplight::Ask* ask READ ask CONSTANT FINAL)
    Q_PROPERTY(ramplight::PeopleModel* people READ people CONSTANT FINAL) ///< also who left
    Q_PROPERTY(ramplight::BaysModel* bays READ bays CONSTANT FINAL)       ///< also closed ones
    /// Work that nobody in the house can legally finish, each in words.
    Q_PROPERTY(QStringList warnings READ warnings NOTIFY warningsChanged FINAL)
    // ---- the person in the form
    Q_PROPERTY(int personId READ personId NOTIFY formChanged FINAL) ///< 0: a new one
    Q_PROPERTY(QString name READ name WRITE setName NOTIFY formChanged FINAL)
    Q_PROPERTY(bool active READ active WRITE setActive NOTIFY formChanged FINAL)
    Q_PROPERTY(ramplight::Choices* skills READ skills CONSTANT FINAL)
    Q_PROPERTY(ramplight::Choices* rights READ rights CONSTANT FINAL)
    /// For a new person's first PIN and for resetPin().
    Q_PROPERTY(ramplight::NewPin* newPin READ newPin CONSTANT FINAL)
    /// A badge that was scanned while the form was open; empty.
    Q_PROPERTY(QString scannedBadge READ scannedBadge NOTIFY formChanged FINAL)
    /// Whether the person in the form shall have it, and from whom it would be taken; that the
    /// person has it already; what has just been done about a badge. Otherwise empty.
    Q_PROPERTY(QString badgeWords READ badgeWords NOTIFY formChanged FINAL)
    /// What giveBadge() does to the scanned one: "Give the badge", or whom it takes it from; empty:
    /// there is nothing to give.
    Q_PROPERTY(QString giveBadgeWords READ giveBadgeWords NOTIFY formChanged FINAL)
    // ---- the bay in the form
    Q_PROPERTY(int bayId READ bayId NOTIFY formChanged FINAL) ///< 0: a new one
    Q_PROPERTY(QString bayNumber READ bayNumber WRITE setBayNumber NOTIFY formChanged FINAL)
    Q_PROPERTY(QString bayName READ bayName WRITE setBayName NOTIFY formChanged FINAL)
    Q_PROPERTY(bool bayActive READ bayActive WRITE setBayActive NOTIFY formChanged FINAL)
    Q_PROPERTY(ramplight::Choices* bayKinds READ bayKinds CONSTANT FINAL)

public:
    StaffView(Desk& desk, Session& session, SiteBook& book, CardFeed& feed, Ticker& ticker,
              const Catalogue& catalogue, QObject* parent = nullptr);

    [[nodiscard]] Ask* ask() { return &m_ask; }
    [[nodiscard]] PeopleModel* people() { return &m_people; }
    [[nodiscard]] BaysModel* bays() { return &m_bays; }
    [[nodiscard]] QStringList warnings() const { return m_warnings; }
    [[nodiscard]] int personId() const { return m_person.value; }
    [[nodiscard]] QString name() const { return m_name; }
    void setName(const QString& name);
    [[nodiscard]] bool active() const { return m_active; }
    void setActive(bool active);
    [[nodiscard]] Choices* skills() { return &m_skills; }
    [[nodiscard]] Choices* rights() { return &m_rights; }
    [[nodiscard]] NewPin* newPin() { return &m_newPin; }
    [[nodiscard]] QString scannedBadge() const { return m_badge; }
    [[nodiscard]] QString badgeWords() const;
    [[nodiscard]] QString giveBadgeWords() const;
    [[nodiscard]] int bayId() const { return m_bay.value; }
    [[nodiscard]] QString bayNumber() const { return m_bayNumber; }
    void setBayNumber(const QString& number);
    [[nodiscard]] QString bayName() const { return m_bayName; }
    void setBayName(const QString& name);
    [[nodiscard]] bool bayActive() const { return m_bayActive; }
    void setBayActive(bool active);
    [[nodiscard]] Choices* bayKinds() { return &m_bayKinds; }

    Q_INVOKABLE void edit(int personId);
    /// Adds or changes. A new person needs a ready newPin.
    Q_INVOKABLE void save();
    Q_INVOKABLE void resetPin();
    /// Gives the scanned badge to the person in the form.
    Q_INVOKABLE void giveBadge();
    Q_INVOKABLE void takeBadge();
    Q_INVOKABLE void editBay(int bayId);
    Q_INVOKABLE void saveBay();
    /// End of the shift: every running timer stops.
    Q_INVOKABLE void stopAllWork();

    /// From the scan router while the form is open: it is in the form once it is known
    /// whose it is.
    void badgeScanned(const QString& code);

signals:
    void warningsChanged();
    void formChanged();

private:
    void onSite();
    /// The PIN as it was when the request began: the form may be closed and emptied meanwhile.
    void writePin(PersonId person, const std::shared_ptr<const Secret>& pin);
    void changeBadge(const QString& code);

    Desk& m_desk;
    Session& m_session;
    SiteBook& m_book;
    Ticker& m_ticker;
    const Catalogue& m_catalogue;
    Ask m_ask;
    SiteAsks m_asks;
    PeopleModel m_people;
    BaysModel m_bays;
    QStringList m_warnings;
    PersonId m_person;
    QString m_name;
    bool m_active = true;
    Choices m_skills;
    Choices m_rights;
    NewPin m_newPin;
    QString m_badge;
    PersonId m_badgeOf; ///< who has it now
    QString m_badgeDone;
    BayId m_bay;
    QString m_bayNumber;
    QString m_bayName;
    bool m_bayActive = true;
    Choices m_bayKinds;
};

} // namespace ramplight
