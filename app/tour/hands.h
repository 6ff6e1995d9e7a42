// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/kioskapp.h"
#include "tour/visitor.h"

#include <QRandomGenerator>

#include <functional>

namespace ramplight {

/// The people of the demo workshop at the wall: sign in, open a car, do an operation from its
/// cautions to the signature, all by touch. Every step answers false when it does not come about;
/// the visitor knows why. GUI thread.
class Hands
{
public:
    /// Lets so much time pass on the workshop's clock.
    using Passing = std::function<void(int minutes)>;
    /// Leaves another picture in the drop folder, as a phone does; false when it cannot.
    using Photographing = std::function<bool()>;
    /// App and visitor outlive the hands. pin is everybody's.
    Hands(KioskApp& app, Visitor& visitor, Passing goOn, Photographing photograph, QString pin);

    /// A signature that the screen shows as taken.
    using Told = std::function<void(const QString& carId, OperationId operation,
                                    const Signature& signature)>;
    void onSignature(Told told) { m_told = std::move(told); }

    bool home();
    bool signIn(const QString& name);
    bool signOut();
    /// The filter of the wall: what waits for this skill.
    bool showSkill(const QString& skill);
    bool openCar(const QString& stockNumber);
    bool openOperation(int operationId);

    /// Of the car that is open: open, nothing before it, not waiting for a part; 0: none.
    [[nodiscard]] int nextOperation() const;
    [[nodiscard]] bool nothingHolds() const;
    /// Of the car that is open: each check that it still needs has somebody who did none of its
    /// work.
    [[nodiscard]] bool checkersAreLeft() const;
    /// Time passes in which something dries or cures.
    bool waitFor(const QString& stockNumber, int minutes);
    /// Who has the skill and the right for it, those first who have nothing else in hand.
    [[nodiscard]] QStringList whoMay(int operationId) const;

    /// One operation with whoever is needed, from the car's screen back to it: all of it, or up to
    /// the running timer and on from there.
    bool workOff(const QString& stockNumber, int operationId);
    bool begin(const QString& stockNumber, int operationId);
    bool finish(const QString& stockNumber, int operationId);

    /// The steps on the operation's screen, by who is signed in.
    bool start();
    bool openReadings();
    bool takeReadings();
    bool takePhotos();
    bool sign();

private:
    [[nodiscard]] OperationState stateOf(int operationId) const;
    /// The last signature on it.
    bool tell(OperationId operation) const;
    /// Who has something else in hand pauses it, by the way that the wall shows to it.
    bool pauseOther(const QString& stockNumber);
    bool enterFigures(const QString& stockNumber, int operationId, const QString& doer);
    bool countersign(const QString& stockNumber, int operationId);
    bool answer(const ReadingRow& row, const ReadingValue& value);
    [[nodiscard]] ReadingValue measured(const ReadingRow& row);
    [[nodiscard]] QQuickItem* rowOf(const char* type, const char* property,
                                    const QVariant& value) const;
    /// The first photo that the sheet offers.
    [[nodiscard]] QQuickItem* fileTile() const;
    [[nodiscard]] QStringList peopleWho(const std::function<bool(const PersonRow&)>& may) const;

    Shell& m_shell;
    Visitor& m_visitor;
    Passing m_goOn;
    Photographing m_photograph;
    QString m_pin;
    Told m_told;
    QRandomGenerator m_random{7};
};

} // namespace ramplight
