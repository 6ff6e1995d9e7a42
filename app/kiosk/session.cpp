// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/session.h"

#include "access/pinpolicy.h"

namespace ramplight {

Session::Session(Desk& desk, SiteBook& book, Ticker& ticker, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_book(book)
    , m_ticker(ticker)
    , m_pad(PinPolicy{}.digits)
    , m_touchedSteady(ticker.steadyMs())
{
    connect(&m_pad, &PinEntry::filled, this, &Session::submit);
    connect(&ticker, &Ticker::second, this, &Session::second);
    connect(&book, &SiteBook::changed, this, &Session::onSite);
}

QString Session::name() const
{
    return m_book.nameOf(m_person);
}

QString Session::askedName() const
{
    return m_book.nameOf(m_asked);
}

QString Session::skillWords() const
{
    QStringList all;
    if (const ramplight::Person* person = m_book.site().person(m_person))
        for (const Skill skill : person->skills)
            all.append(ramplight::words(skill));
    return all.join(QStringLiteral(", "));
}

QStringList Session::skills() const
{
    QStringList all;
    if (const ramplight::Person* person = m_book.site().person(m_person))
        for (const Skill skill : person->skills)
            all.append(nameOf(skill));
    return all;
}

bool Session::may(Right right) const
{
    const ramplight::Person* person = m_book.site().person(m_person);
    return person != nullptr && person->active && person->can(right);
}

int Session::lockSeconds() const
{
    return m_book.rules().lockSeconds;
}

void Session::setStage(Stage stage)
{
    m_stage = stage;
    emit stageChanged();
}

void Session::say(const QString& words)
{
    m_words = words;
    emit answerChanged();
}

void Session::ask()
{
    touch();
    ++m_turn;
    m_pad.clear();
    m_asked = {};
    m_again = false;
    m_busy = false;
    m_locked = false;
    m_waitSeconds = 0;
    say({});
    setStage(Person);
}

void Session::choose(int personId)
{
    touch();
    ++m_turn;
    m_asked = PersonId{personId};
    m_again = m_asked == m_person;
    m_pad.clear();
    m_busy = false;
    m_locked = false;
    m_waitSeconds = 0;
    say({});
    setStage(Pin);
    const int turn = m_turn;
    whenReady(m_desk.signInStanding(m_asked), this,
              [this, turn](const tl::expected<SignInAnswer, AccessError>& standing) {
                  if (turn != m_turn)
                      return;
                  if (!standing || standing->outcome == SignInAnswer::Outcome::Waiting ||
                      standing->outcome == SignInAnswer::Outcome::Locked)
                      take(standing);
              });
}

void Session::badge(const QString& code)
{
    touch();
    whenReady(m_desk.personOfBadge(code), this,
              [this](const tl::expected<std::optional<PersonId>, AccessError>& person) {
                  if (!person) {
                      emit note(ramplight::words(person.error()));
                  } else if (!*person) {
                      emit note(tr("Nobody here has this badge. Touch your name instead, or ask a "
                                   "manager to give you the badge."));
                  } else if (**person == m_person && m_stage == Nobody) {
                      touch();
                  } else {
                      // Another badge while somebody is signed in: that person takes over.
                      if (**person != m_person && signedIn() && m_stage == Nobody)
                          signOut();
                      choose((*person)->value);
                  }
              });
}

void Session::submit()
{
    if (m_busy || m_stage != Pin || m_waitSeconds > 0 || m_locked || m_pad.length() == 0)
        return;
    touch();
    m_busy = true;
    say({});
    const int turn = m_turn;
    whenReady(m_desk.tryPin(m_asked, m_pad.take(), m_waitingRequest), this,
              [this, turn](const tl::expected<SignInAnswer, AccessError>& answer) {
                  if (turn == m_turn)
                      take(answer);
              });
}

void Session::take(const tl::expected<SignInAnswer, AccessError>& answer)
{
    m_busy = false;
    if (!answer) {
        say(ramplight::words(answer.error()));
        return;
    }
    if (answer->outcome == SignInAnswer::Outcome::SignedIn) {
        welcome(*answer);
        return;
    }
    m_locked = answer->outcome == SignInAnswer::Outcome::Locked;
    m_waitUntilSteady = m_ticker.steadyMs() + answer->wait.count();
    m_waitSeconds = static_cast<int>((answer->wait.count() + 999) / 1000);
    m_pad.clear();
    say(ramplight::words(*answer));
}

void Session::welcome(const SignInAnswer& answer)
{
    const bool other = m_person != m_asked;
    m_person = m_asked;
    if (other)
        putWrongBeforeAway();
    if (answer.wrongBefore) {
        const auto& [count, last] = *answer.wrongBefore;
        const QString when = m_book.times().dayAndClock(last, m_ticker.now());
        m_wrongBefore =
            count == 1
                ? tr("Since you last signed in, a wrong PIN was entered for you: %1.").arg(when)
                : tr("Since you last signed in, %1 wrong PINs were entered for you, the last "
                     "%2.")
                      .arg(QString::number(count), when);
        emit wrongBeforeChanged();
    }
    const Go go = std::exchange(m_waiting, {});
    m_waitingFor.clear();
    m_waitingRequest = {};
    m_again = false;
    m_words.clear();
    touch();
    if (other)
        emit personChanged();
    emit answerChanged();
    setStage(Nobody);
    if (go)
        go(m_person);
}

void Session::cancel()
{
    touch();
    ++m_turn;
    m_waiting = {};
    m_waitingFor.clear();
    m_waitingRequest = {};
    m_asked = {};
    m_again = false;
    m_busy = false;
    m_locked = false;
    m_waitSeconds = 0;
    m_pad.clear();
    say({});
    setStage(Nobody);
}

void Session::signOut()
{
    cancel();
    if (!signedIn())
        return;
    m_person = {};
    putWrongBeforeAway();
    emit personChanged();
}

void Session::putWrongBeforeAway()
{
    if (m_wrongBefore.isEmpty())
        return;
    m_wrongBefore.clear();
    emit wrongBeforeChanged();
}

void Session::touch()
{
    m_touchedSteady = m_ticker.steadyMs();
    m_rests = false;
    if (m_secondsLeft == lockSeconds())
        return;
    m_secondsLeft = lockSeconds();
    emit countdown();
}

void Session::second()
{
    if (m_waitSeconds > 0) {
        const qint64 left = m_waitUntilSteady - m_ticker.steadyMs();
        const int seconds = left <= 0 ? 0 : static_cast<int>((left + 999) / 1000);
        if (seconds != m_waitSeconds) {
            m_waitSeconds = seconds;
            say(seconds == 0 ? QString() : m_words);
        }
    }
    if (m_rests)
        return;
    const qint64 idle = (m_ticker.steadyMs() - m_touchedSteady) / 1000;
    const int left = idle >= lockSeconds() ? 0 : lockSeconds() - static_cast<int>(idle);
    if (left != m_secondsLeft) {
        m_secondsLeft = left;
        emit countdown();
    }
    if (left > 0)
        return;
    signOut();
    m_rests = true;
    emit timedOut();
}

void Session::onSite()
{
    const ramplight::Person* person = m_book.site().person(m_person);
    if (signedIn() && (person == nullptr || !person->active))
        signOut();
    emit personChanged();
}

void Session::whenSignedIn(const QString& why, Go go)
{
    touch();
    if (signedIn()) {
        go(m_person);
        return;
    }
    ask();
    m_waiting = std::move(go);
    m_waitingFor = why;
    emit stageChanged();
}

void Session::whenPinAgain(const QString& why, Go go, const CommandId& request)
{
    if (!signedIn()) {
        whenSignedIn(why, std::move(go));
        m_waitingRequest = request;
        return;
    }
    choose(m_person.value);
    m_waiting = std::move(go);
    m_waitingFor = why;
    m_waitingRequest = request;
    emit stageChanged();
}

} // namespace ramplight
