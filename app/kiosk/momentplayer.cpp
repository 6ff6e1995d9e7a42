// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/momentplayer.h"

#include "kiosk/answer.h"
#include "kiosk/onpool.h"

#include <QAudioDevice>
#include <QMediaDevices>
#include <QThreadPool>
#include <QUrl>

#include <algorithm>
#include <cmath>
#include <utility>

namespace ramplight {

namespace {

// Longer than a stick that wakes up takes; whoever stands there wants words by then.
constexpr int patienceMs = 5'000;
// A recording that ends this much before the moment's end has ended; with more to come it broke.
constexpr double endSlack = 0.5;

QString clockWords(double second)
{
    const int whole = static_cast<int>(std::floor(second));
    return whole < 3600
               ? QStringLiteral("%1:%2").arg(whole / 60).arg(whole % 60, 2, 10, QLatin1Char('0'))
               : QStringLiteral("%1:%2:%3")
                     .arg(whole / 3600)
                     .arg(whole / 60 % 60, 2, 10, QLatin1Char('0'))
                     .arg(whole % 60, 2, 10, QLatin1Char('0'));
}

} // namespace

void chooseMediaBackend()
{
    if (!qEnvironmentVariableIsSet("QT_MEDIA_BACKEND"))
        qputenv("QT_MEDIA_BACKEND", "ffmpeg");
}

QThreadPool& MomentPlayer::disks()
{
    static QThreadPool pool;
    return pool;
}

MomentPlayer::MomentPlayer(QQuickItem* parent)
    : FrameItem(parent)
{
    m_patience.setSingleShot(true);
    m_patience.setInterval(patienceMs);
    connect(&m_patience, &QTimer::timeout, this, [this] {
        fail(tr("The recording does not come. Look at its stick or share, then play it again."));
    });
}

MomentPlayer::~MomentPlayer() = default;

void MomentPlayer::setSource(const QString& path)
{
    if (m_source == path)
        return;
    stop();
    m_source = path;
    emit sourceChanged();
}

QString MomentPlayer::words() const
{
    switch (m_state) {
    case State::Idle:
        return m_source.isEmpty() ? tr("The recording is not here.") : QString();
    case State::Opening:
        return tr("Opening the recording");
    case State::Playing:
        return m_silent ? tr("Playing without sound: there is no loudspeaker here") : tr("Playing");
    case State::Resting:
        return m_position >= m_end ? tr("Played") : tr("Stopped");
    case State::Fault:
        break;
    }
    return m_fault;
}

bool MomentPlayer::hasPicture() const
{
    return m_player && m_player->hasVideo();
}

QString MomentPlayer::positionWords() const
{
    return clockWords(m_position);
}

QString MomentPlayer::endWords() const
{
    return clockWords(m_end);
}

void MomentPlayer::playFrom(qreal first, qreal last)
{
    m_begin = std::max(0.0, first - lead);
    m_end = std::max(first, last) + tail;
    look();
}

void MomentPlayer::again()
{
    if (m_end > 0)
        look();
}

void MomentPlayer::look()
{
    const int round = ++m_round;
    m_asked = false;
    m_holdNext = false;
    if (m_player)
        m_player->pause();
    // Nobody takes a picture of the moment before.
    clearFrame();
    m_position = m_begin;
    emit positionChanged();
    if (m_source.isEmpty()) {
        fail(tr("The recording is not here. Put it beside its transcript, under the same name."));
        return;
    }
    m_fault.clear();
    enter(State::Opening);
    m_patience.start();
    whenReady(onPool(disks(), [path = m_source] { return lookAtRecording(path); }), this,
              [this, round](const tl::expected<RecordingFile, RecordingFault>& file) {
                  if (round != m_round || m_state != State::Opening)
                      return;
                  if (file) {
                      open(*file);
                      return;
                  }
                  switch (file.error()) {
                  case RecordingFault::Missing:
                      fail(tr("The recording is not there any more. Was the stick pulled out?"));
                      break;
                  case RecordingFault::Empty:
                      fail(tr("There is nothing in the recording's file. Copy it once more."));
                      break;
                  case RecordingFault::NotPermitted:
                      fail(tr("The kiosk may not read the recording. Ask whoever looks after its "
                              "folders."));
                      break;
                  case RecordingFault::CannotRead:
                      fail(tr("The recording cannot be read. Look at its stick or disk."));
                      break;
                  }
              });
}

void MomentPlayer::open(const RecordingFile& file)
{
    if (m_player && m_file == file && m_player->source().isValid()) {
        onLoaded();
        return;
    }
    release();
    m_player = std::make_unique<QMediaPlayer>();
    if (!m_player->isAvailable()) {
        fail(tr("This kiosk cannot play recordings: the program that decodes them is missing."));
        return;
    }
    m_file = file;
    setQuarterTurns(file.quarterTurns);
    // With a loudspeaker that does not exist the player would wait for it for ever.
    if (!QMediaDevices::defaultAudioOutput().isNull()) {
        m_loudspeaker = std::make_unique<QAudioOutput>();
        m_player->setAudioOutput(m_loudspeaker.get());
    }
    m_player->setVideoSink(sink());
    connect(m_player.get(), &QMediaPlayer::mediaStatusChanged, this, &MomentPlayer::onStatus);
    connect(m_player.get(), &QMediaPlayer::positionChanged, this, &MomentPlayer::onPosition);
    connect(m_player.get(), &QMediaPlayer::errorOccurred, this,
            [this](QMediaPlayer::Error error, const QString&) {
                if (error != QMediaPlayer::NoError)
                    failUnplayable();
            });
    m_player->setSource(QUrl::fromLocalFile(m_source));
}

void MomentPlayer::onStatus(QMediaPlayer::MediaStatus status)
{
    switch (status) {
    case QMediaPlayer::LoadedMedia:
        if (!m_asked)
            onLoaded();
        break;
    case QMediaPlayer::InvalidMedia:
        failUnplayable();
        break;
    case QMediaPlayer::EndOfMedia:
        onEnd();
        break;
    default:
        break;
    }
}

void MomentPlayer::onLoaded()
{
    if (m_state != State::Opening)
        return;
    // Qt 6.4 calls a file loaded in which it found nothing.
    if (!m_player->hasVideo() && !m_player->hasAudio()) {
        failUnplayable();
        return;
    }
    m_silent = m_player->hasAudio() && !m_loudspeaker;
    if (m_silent && !m_player->hasVideo()) {
        fail(tr("There is no loudspeaker at this kiosk, so the recording cannot be heard."));
        return;
    }
    const double length = static_cast<double>(m_player->duration()) / 1000;
    if (length > 0 && m_begin >= length) {
        fail(tr("The recording ends at %1, before this moment. Is it the right one, and whole?")
                 .arg(clockWords(length)));
        return;
    }
    if (length > 0)
        m_end = std::min(m_end, length);
    m_asked = true;
    m_player->setPosition(static_cast<qint64>(m_begin * 1000));
    m_player->play();
}

void MomentPlayer::proven()
{
    if (m_state != State::Opening || !m_asked)
        return;
    m_patience.stop();
    enter(State::Playing);
}

bool MomentPlayer::takesFrames() const
{
    return m_asked && m_state != State::Fault && m_state != State::Idle;
}

void MomentPlayer::frameShown()
{
    if (std::exchange(m_holdNext, false))
        m_player->pause();
    proven();
}

void MomentPlayer::frameUnreadable()
{
    fail(tr("The pictures of this recording are of a kind that cannot be shown here."));
}

void MomentPlayer::onPosition(qint64 milliseconds)
{
    if (!m_asked)
        return;
    const double second = static_cast<double>(milliseconds) / 1000;
    // A video has begun when its picture is seen, sound when it moves on.
    if (!m_player->hasVideo() && second > m_begin)
        proven();
    if (m_state != State::Playing && m_state != State::Resting)
        return;
    m_position = std::clamp(second, m_begin, m_end);
    emit positionChanged();
    if (m_state == State::Playing && second >= m_end) {
        m_player->pause();
        enter(State::Resting);
    }
}

void MomentPlayer::onEnd()
{
    if (m_state == State::Opening && m_asked) {
        fail(tr("Nothing of this moment can be seen or heard: the recording is damaged there."));
        return;
    }
    if (m_state != State::Playing)
        return;
    if (m_position < m_end - endSlack) {
        fail(tr("The recording broke off. Was the stick pulled out?"));
        return;
    }
    m_position = m_end;
    emit positionChanged();
    enter(State::Resting);
}

void MomentPlayer::pause()
{
    if (m_state != State::Playing)
        return;
    m_player->pause();
    enter(State::Resting);
}

void MomentPlayer::goOn()
{
    if (m_state != State::Resting)
        return;
    if (m_position >= m_end) {
        again();
        return;
    }
    m_holdNext = false;
    if (m_player->playbackState() == QMediaPlayer::StoppedState)
        m_player->setPosition(static_cast<qint64>(m_position * 1000));
    m_player->play();
    enter(State::Playing);
}

void MomentPlayer::seek(qreal second)
{
    if (m_state != State::Playing && m_state != State::Resting)
        return;
    m_position = std::clamp(second, m_begin, m_end);
    m_player->setPosition(static_cast<qint64>(m_position * 1000));
    // At the end of the file the player has stopped and shows nothing: it plays one picture.
    if (m_player->playbackState() == QMediaPlayer::StoppedState && m_player->hasVideo()) {
        m_holdNext = true;
        m_player->play();
    }
    emit positionChanged();
    emit stateChanged();
}

void MomentPlayer::stop()
{
    ++m_round;
    m_patience.stop();
    clearFrame();
    release();
    m_fault.clear();
    enter(State::Idle);
}

void MomentPlayer::enter(State state)
{
    m_state = state;
    emit stateChanged();
}

void MomentPlayer::fail(const QString& words)
{
    m_patience.stop();
    m_fault = words;
    clearFrame();
    if (m_player)
        m_player->pause();
    enter(State::Fault);
}

void MomentPlayer::failUnplayable()
{
    fail(tr("The recording cannot be played: its kind is not known here, or it is damaged."));
}

void MomentPlayer::release()
{
    m_asked = false;
    m_holdNext = false;
    if (!m_player)
        return;
    m_player->disconnect(this);
    // Its own signals may be what brought us here.
    m_player->stop();
    m_player->setVideoSink(nullptr);
    m_player->setAudioOutput(nullptr);
    m_player.release()->deleteLater();
    if (m_loudspeaker)
        m_loudspeaker.release()->deleteLater();
}

} // namespace ramplight
