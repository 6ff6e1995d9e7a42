// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/pinentry.h"
#include "kiosk/sitebook.h"
#include "kiosk/ticker.h"

#include <QObject>
#include <QtQmlIntegration>

#include <functional>

namespace ramplight {

/// Who stands at the wall. Person first (a name or a badge), then the PIN on `pad`; signed in while
/// touching, signed out after the house's lock time (timers run on). That time counts for whoever
/// looks without signing in, too. GUI thread.
///
/// Sign-in screen: list of people -> choose(personId) -> pad. `stage` says which to show. An action
/// of somebody who is not signed in waits here (waitingFor says for what) and goes on by itself
/// once the PIN is right; cancel() drops it. confirm... the same with "PIN again".
class Session : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    Q_PROPERTY(bool signedIn READ signedIn NOTIFY personChanged FINAL)
    Q_PROPERTY(int personId READ personId NOTIFY personChanged FINAL)
    Q_PROPERTY(QString name READ name NOTIFY personChanged FINAL)
    /// "wheels, checks"
    Q_PROPERTY(QString skillWords READ skillWords NOTIFY personChanged FINAL)
    /// Ids of skills, first the one to filter by.
    Q_PROPERTY(QStringList skills READ skills NOTIFY personChanged FINAL)
    Q_PROPERTY(bool mayAppraise READ mayAppraise NOTIFY personChanged FINAL)
    Q_PROPERTY(bool mayWork READ mayWork NOTIFY personChanged FINAL)
    Q_PROPERTY(bool mayCheck READ mayCheck NOTIFY personChanged FINAL)
    Q_PROPERTY(bool mayManage READ mayManage NOTIFY personChanged FINAL)
    Q_PROPERTY(bool mayRelease READ mayRelease NOTIFY personChanged FINAL)
    /// Seconds until the lock, counted down; lockSeconds is where it starts.
    Q_PROPERTY(int secondsLeft READ secondsLeft NOTIFY countdown FINAL)
    Q_PROPERTY(int lockSeconds READ lockSeconds NOTIFY personChanged FINAL)
    /// What the sign-in screen shows: Session.Nobody (no screen), Session.Person (names),
    /// Session.Pin (the pad).
    Q_PROPERTY(Stage stage READ stage NOTIFY stageChanged FINAL)
    Q_PROPERTY(ramplight::PinEntry* pad READ pad CONSTANT FINAL)
    /// Whose PIN is asked for.
    Q_PROPERTY(int askedId READ askedId NOTIFY stageChanged FINAL)
    Q_PROPERTY(QString askedName READ askedName NOTIFY stageChanged FINAL)
    /// Why: "to release R-208"; empty when somebody just signs in.
    Q_PROPERTY(QString waitingFor READ waitingFor NOTIFY stageChanged FINAL)
    /// True when it is the PIN again of who is signed in.
    Q_PROPERTY(bool again READ again NOTIFY stageChanged FINAL)
    /// The PIN is being looked at.
    Q_PROPERTY(bool busy READ busy NOTIFY answerChanged FINAL)
    /// "That is not the PIN ...", the wait, the lock; empty when there is nothing to say.
    Q_PROPERTY(QString words READ words NOTIFY answerChanged FINAL)
    /// Of who has just signed in: "3 wrong PINs were entered for you ..."; empty when there is
    /// nothing to say. Stays until it is put away or nobody is signed in.
    Q_PROPERTY(QString wrongBefore READ wrongBefore NOTIFY wrongBeforeChanged FINAL)
    /// Seconds until a PIN may be tried again; the pad is disabled meanwhile.
    Q_PROPERTY(int waitSeconds READ waitSeconds NOTIFY answerChanged FINAL)
    /// Only a manager's reset helps.
    Q_PROPERTY(bool locked READ isLocked NOTIFY answerChanged FINAL)

public:
    enum Stage { Nobody = 0, Person = 1, Pin = 2 };
    Q_ENUM(Stage)
    using Go = std::function<void(PersonId)>;

    Session(Desk& desk, SiteBook& book, Ticker& ticker, QObject* parent = nullptr);

    [[nodiscard]] bool signedIn() const { return !m_person.isNull(); }
    [[nodiscard]] PersonId person() const { return m_person; }
    [[nodiscard]] int personId() const { return m_person.value; }
    [[nodiscard]] QString name() const;
    [[nodiscard]] QString skillWords() const;
    [[nodiscard]] QStringList skills() const;
    [[nodiscard]] bool mayAppraise() const { return may(Right::Appraise); }
    [[nodiscard]] bool mayWork() const { return may(Right::Work); }
    [[nodiscard]] bool mayCheck() const { return may(Right::Check); }
    [[nodiscard]] bool mayManage() const { return may(Right::Manage); }
    [[nodiscard]] bool mayRelease() const { return may(Right::Release); }
    [[nodiscard]] int secondsLeft() const { return m_secondsLeft; }
    [[nodiscard]] int lockSeconds() const;
    [[nodiscard]] Stage stage() const { return m_stage; }
    [[nodiscard]] PinEntry* pad() { return &m_pad; }
    [[nodiscard]] int askedId() const { return m_asked.value; }
    [[nodiscard]] QString askedName() const;
    [[nodiscard]] QString waitingFor() const { return m_waitingFor; }
    [[nodiscard]] bool again() const { return m_again; }
    [[nodiscard]] bool busy() const { return m_busy; }
    [[nodiscard]] QString words() const { return m_words; }
    [[nodiscard]] QString wrongBefore() const { return m_wrongBefore; }
    [[nodiscard]] int waitSeconds() const { return m_waitSeconds; }
    [[nodiscard]] bool isLocked() const { return m_locked; }

    /// "Who are you?": shows the names.
    Q_INVOKABLE void ask();
    /// A name was touched: shows the pad.
    Q_INVOKABLE void choose(int personId);
    /// A badge names the person; the PIN is still asked for.
    Q_INVOKABLE void badge(const QString& code);
    /// The digits are all there (a full pad submits by itself).
    Q_INVOKABLE void submit();
    /// Back to what was before; a waiting action is dropped.
    Q_INVOKABLE void cancel();
    Q_INVOKABLE void signOut();
    Q_INVOKABLE void putWrongBeforeAway();
    /// Somebody touched the screen: the countdown starts anew.
    Q_INVOKABLE void touch();

    /// Calls go with who is signed in: now, or once somebody has signed in.
    void whenSignedIn(const QString& why, Go go);
    /// Asks who is signed in (or signs in) for the PIN again and calls go once it is right. The
    /// desk then carries out the request of that id that wants the PIN for itself (Desk::tryPin).
    void whenPinAgain(const QString& why, Go go, const CommandId& request = {});

signals:
    void personChanged();
    void stageChanged();
    void answerChanged();
    void wrongBeforeChanged();
    void countdown();
    /// Nobody touched the screen for the lock time, signed in or not: screens go back to the wall.
    /// Once; then again after the next touch.
    void timedOut();
    /// A badge that belongs to nobody here, or the staff could not be read: words for a passing
    /// note.
    void note(const QString& words);

private:
    [[nodiscard]] bool may(Right right) const;
    void setStage(Stage stage);
    void look();
    void take(const tl::expected<SignInAnswer, AccessError>& answer);
    void welcome(const SignInAnswer& answer);
    void second();
    void onSite();
    void say(const QString& words);

    Desk& m_desk;
    SiteBook& m_book;
    Ticker& m_ticker;
    PinEntry m_pad;
    PersonId m_person;
    PersonId m_asked;
    Stage m_stage = Nobody;
    QString m_waitingFor;
    Go m_waiting;
    CommandId m_waitingRequest;
    bool m_again = false;
    bool m_busy = false;
    bool m_locked = false;
    QString m_words;
    QString m_wrongBefore;
    int m_waitSeconds = 0;
    qint64 m_waitUntilSteady = 0;
    int m_secondsLeft = 0;
    qint64 m_touchedSteady = 0;
    bool m_rests = false; // timed out, and not touched since
    int m_turn = 0;       // answers to an older question are dropped
};

} // namespace ramplight
