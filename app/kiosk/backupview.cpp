// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/backupview.h"

#include "kiosk/siteasks.h"

#include <utility>

namespace ramplight {

namespace {

/// Whoever was away over the weekend reads it, too.
constexpr int leftBehindToldForDays = 4;

} // namespace

BackupView::BackupView(BackupPort* port, Desk& desk, Session& session, SiteBook& book,
                       Ticker& ticker, QObject* parent)
    : QObject(parent)
    , m_port(port)
    , m_desk(desk)
    , m_session(session)
    , m_book(book)
    , m_ticker(ticker)
{
    if (m_port == nullptr)
        return;
    connect(&m_ticker, &Ticker::minute, this, &BackupView::look);
    connect(&m_book, &SiteBook::changed, this, &BackupView::changed);
    connect(&m_desk, &Desk::standingChanged, this, &BackupView::lookAtSite);
    // Before anybody goes on with a car that did not come back as it was.
    whenReady(m_port->status(m_book.times().zone()), this, [this](const BackupStatus& status) {
        m_status.broughtBack = status.broughtBack;
        emit changed();
    });
}

QString BackupView::lastWords() const
{
    if (m_status.goodAt.isNull())
        return tr("none yet");
    return m_book.times().dayAndClock(m_status.goodAt, m_ticker.now());
}

QString BackupView::siteWords() const
{
    if (!m_site)
        return {};
    if (m_site->goodAt.isNull())
        return tr("none yet");
    return tr("%1, by the kiosk %2")
        .arg(m_book.times().dayAndClock(m_site->goodAt, m_ticker.now()), m_site->kiosk);
}

QString BackupView::atWords() const
{
    return m_status.at.isEmpty() ? QString() : tr("each day at %1").arg(m_status.at);
}

QString BackupView::keyCopyWords() const
{
    if (!m_known || m_book.site().demo)
        return {};
    return keyCopied() ? m_book.times().dayAndClock(m_status.keyCopiedAt, m_ticker.now())
                       : tr("none known");
}

QString BackupView::broughtBack() const
{
    const BroughtBack& back = m_status.broughtBack;
    if (back.at.isNull())
        return {};
    return tr("The workshop was brought back %1 from the backup of %2.")
        .arg(m_book.times().dayAndClock(back.at, m_ticker.now()), m_book.times().full(back.madeAt));
}

QString BackupView::leftBehind() const
{
    const BroughtBack& back = m_status.broughtBack;
    if (!back.isLeftBehind || back.at.plusMinutes(leftBehindToldForDays * 24 * 60) < m_ticker.now())
        return {};
    if (back.cars.isEmpty())
        return tr("The workshop was brought back from the backup of %1, and not all that was done "
                  "since came along: see Settings, Backup.")
            .arg(m_book.times().dayAndClock(back.madeAt, m_ticker.now()));
    return tr("Brought back from the backup of %1 (see Settings, Backup). Look at these cars "
              "before "
              "anybody goes on with them: %2")
        .arg(m_book.times().dayAndClock(back.madeAt, m_ticker.now()),
             back.cars.join(QStringLiteral(", ")));
}

QString BackupView::warning() const
{
    const bool isMadeElsewhere = m_site && m_status.state == BackupState::NotSetUp;
    return isMadeElsewhere || ownWarning().isEmpty() ? siteWarning() : ownWarning();
}

// One kiosk makes the backups of all; the others say when it does not.
QString BackupView::siteWarning() const
{
    // What is played with needs none.
    if (!m_site || m_book.site().demo || !m_book.site().isSetUp())
        return {};
    if (m_site->goodAt.isNull())
        return m_status.state == BackupState::NotSetUp
                   ? tr("No kiosk of this site has made a whole backup yet. If the server's disk "
                        "breaks, everything is lost: name a folder on another disk or a stick.")
                   : QString();
    if (!m_site->isStale(m_ticker.now()))
        return {};
    return tr("The last whole backup of this site is from %1. See to that kiosk, or let another "
              "one "
              "make them.")
        .arg(siteWords());
}

BackupState BackupView::state() const
{
    const bool isInOrder = m_status.state == BackupState::Waiting ||
                           m_status.state == BackupState::Good ||
                           m_status.state == BackupState::Faulty;
    return isInOrder && isStaleBackup(m_status.goodAt, m_status.since, m_ticker.now())
               ? BackupState::Stale
               : m_status.state;
}

QString BackupView::ownWarning() const
{
    if (!m_known)
        return {};
    switch (state()) {
    case BackupState::NotSetUp:
        // What is played with needs none.
        return m_book.site().demo
                   ? QString()
                   : tr("No backup is made. If this disk breaks, everything is lost: "
                        "name a folder on another disk or a stick.");
    case BackupState::Stale: {
        const QString what =
            m_status.goodAt.isNull()
                ? tr("A folder for backups is named, and there is no whole one yet after a day.")
                : tr("The last whole backup is from %1.").arg(lastWords());
        return what + QLatin1Char(' ') +
               (m_working ? tr("One is being made now.")
                          : tr("See that the stick or disk is there."));
    }
    case BackupState::Faulty:
        return tr("The backup of %1 was made, and something is wrong with the workshop itself: %2. "
                  "Let somebody see to that who looks after this machine (ramplight verify).")
            .arg(lastWords(), m_status.faults);
    case BackupState::Failed:
        return tr("The last backup came to nothing: %1 The last whole one: %2.")
            .arg(m_status.words, lastWords());
    case BackupState::Waiting:
    case BackupState::Good:
        break;
    }
    return m_status.sameDisk ? tr("The backups are on the same disk as the workshop: if it breaks, "
                                  "both are lost. Name a folder on another disk or a stick.")
                             : QString();
}

void BackupView::show(const BackupStatus& status)
{
    m_status = status;
    m_known = true;
    emit changed();
}

void BackupView::lookAtSite()
{
    if (!m_desk.standing().shared) {
        m_site.reset();
        return;
    }
    whenReady(m_desk.siteBackup(), this, [this](const tl::expected<SiteBackup, Failure>& noted) {
        // What was known stays, and grows old.
        if (!noted || m_site == *noted)
            return;
        m_site = *noted;
        emit changed();
    });
}

void BackupView::look()
{
    lookAtSite();
    // What was known grows old, whether anybody answers or not.
    emit changed();
    askHowItStands();
}

void BackupView::askHowItStands()
{
    if (m_asking) {
        m_asksAgain = true;
        return;
    }
    m_asking = true;
    // While one is made the day's still counts as due.
    const bool mayBegin = !m_working;
    whenReady(m_port->status(m_book.times().zone()), this,
              [this, mayBegin](const BackupStatus& status) {
                  m_asking = false;
                  show(status);
                  if (status.due && mayBegin && m_book.site().isSetUp())
                      backUp();
                  if (std::exchange(m_asksAgain, false))
                      askHowItStands();
              });
}

void BackupView::refresh()
{
    if (m_port == nullptr)
        return;
    look();
    whenReady(m_port->places(), this, [this](const QStringList& places) {
        m_places = places;
        emit changed();
    });
}

void BackupView::backUp()
{
    if (m_working)
        return;
    m_working = true;
    emit changed();
    whenReady(m_port->backUp(), this, [this](const BackupStatus& status) {
        m_working = false;
        show(status);
        lookAtSite();
    });
}

void BackupView::backUpNow()
{
    if (m_port != nullptr && !m_status.folder.isEmpty())
        backUp();
}

void BackupView::setFolder(const QString& folder)
{
    if (m_port == nullptr || folder.trimmed() == m_status.folder)
        return;
    whenManager(m_session, m_book, m_ask, QStringLiteral("backup"), tr("to change the backups"),
                [this, wanted = folder.trimmed()] { send(wanted); });
}

void BackupView::send(const QString& folder)
{
    if (!m_ask.begin(QStringLiteral("backup"), [this, folder] { send(folder); }))
        return;
    whenReady(m_port->setFolder(folder), this,
              [this](const tl::expected<BackupStatus, QString>& set) {
                  if (!set) {
                      m_ask.fail(QStringLiteral("folder"), set.error(), false);
                      return;
                  }
                  show(*set);
                  m_ask.succeed();
                  if (!m_status.folder.isEmpty() && m_status.goodAt.isNull())
                      backUp();
              });
}

} // namespace ramplight
