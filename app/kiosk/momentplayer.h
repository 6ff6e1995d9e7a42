// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "evidence/recordingfile.h"
#include "kiosk/frameitem.h"

#include <QAudioOutput>
#include <QMediaPlayer>
#include <QTimer>

#include <memory>

class QThreadPool;

namespace ramplight {

/// Plays a moment of a recording, video or sound: from a little before it to a little behind its
/// end, then rests on its last picture. Whatever keeps it from playing is said in words. The file
/// is let go by stop(), so that a stick can be pulled out. GUI thread; the disk is asked on a pool.
/// Use: MomentPlayer { source: path; onGrabbed: frame => car.attachFrame(frame, finding) } and
/// playFrom(61, 64).
// With its namespace: qmltyperegistrar takes the name as it is written.
class MomentPlayer : public ramplight::FrameItem
{
    Q_OBJECT
    QML_ELEMENT
    /// Path of the recording; empty: there is none.
    Q_PROPERTY(QString source READ source WRITE setSource NOTIFY sourceChanged FINAL)
    Q_PROPERTY(State state READ state NOTIFY stateChanged FINAL)
    /// The state as a person says it, and why nothing can be heard or seen.
    Q_PROPERTY(QString words READ words NOTIFY stateChanged FINAL)
    /// It is a video.
    Q_PROPERTY(bool hasPicture READ hasPicture NOTIFY stateChanged FINAL)
    /// Seconds of the recording.
    Q_PROPERTY(qreal position READ position NOTIFY positionChanged FINAL)
    Q_PROPERTY(qreal begin READ begin NOTIFY stateChanged FINAL)
    Q_PROPERTY(qreal end READ end NOTIFY stateChanged FINAL)
    /// Where it plays and where it ends: "2:41", "2:48".
    Q_PROPERTY(QString positionWords READ positionWords NOTIFY positionChanged FINAL)
    Q_PROPERTY(QString endWords READ endWords NOTIFY stateChanged FINAL)

public:
    enum class State {
        Idle,    ///< nothing was asked for
        Opening, ///< asked for, not seen or heard yet
        Playing,
        Resting, ///< paused, or the moment is over
        Fault,   ///< cannot be played; words() has why
    };
    Q_ENUM(State)

    static constexpr double lead = 2; ///< seconds before the moment
    static constexpr double tail = 4; ///< seconds behind its end

    explicit MomentPlayer(QQuickItem* parent = nullptr);
    ~MomentPlayer() override;

    [[nodiscard]] QString source() const { return m_source; }
    void setSource(const QString& path);
    [[nodiscard]] State state() const { return m_state; }
    [[nodiscard]] QString words() const;
    [[nodiscard]] bool hasPicture() const;
    [[nodiscard]] qreal position() const { return m_position; }
    [[nodiscard]] qreal begin() const { return m_begin; }
    [[nodiscard]] qreal end() const { return m_end; }
    [[nodiscard]] QString positionWords() const;
    [[nodiscard]] QString endWords() const;

    /// The moment's first and last second in the recording.
    Q_INVOKABLE void playFrom(qreal first, qreal last);
    /// The same moment from its beginning.
    Q_INVOKABLE void again();
    Q_INVOKABLE void pause();
    /// On from where it rests; at the end of the moment from its beginning.
    Q_INVOKABLE void goOn();
    /// Shows this second, inside the moment; plays on if it plays.
    Q_INVOKABLE void seek(qreal second);
    /// Lets the file go.
    Q_INVOKABLE void stop();

    /// How long it may take until something is seen or heard.
    void setPatience(int milliseconds) { m_patience.setInterval(milliseconds); }
    /// What asks the disk. Never Qt's own pool: the software backend paints with it, and a share
    /// that hangs would stop the screen.
    [[nodiscard]] static QThreadPool& disks();

signals:
    void sourceChanged();
    void stateChanged();
    void positionChanged();

protected:
    [[nodiscard]] bool takesFrames() const override;
    void frameShown() override;
    void frameUnreadable() override;

private:
    void look();
    void open(const RecordingFile& file);
    void onStatus(QMediaPlayer::MediaStatus status);
    void onLoaded();
    void onPosition(qint64 milliseconds);
    void onEnd();
    void proven();
    void enter(State state);
    void fail(const QString& words);
    void failUnplayable();
    void release();

    QString m_source;
    double m_begin = 0;
    double m_end = 0;
    double m_position = 0;
    State m_state = State::Idle;
    QString m_fault;
    bool m_silent = false;   ///< it has sound that nobody can hear here
    bool m_asked = false;    ///< the player was told to play the moment
    bool m_holdNext = false; ///< the next picture is to stay
    int m_round = 0;         ///< of playFrom: a later one makes what an earlier one asked void
    RecordingFile m_file;    ///< the one that is open
    QTimer m_patience;
    std::unique_ptr<QAudioOutput> m_loudspeaker;
    std::unique_ptr<QMediaPlayer> m_player; ///< made when it is first asked for: that takes a while
};

/// Chooses what plays recordings and brings the camera's frames: FFmpeg, which the Multimedia
/// library brings along. Before the first use of Multimedia and before any thread; an environment
/// that chooses itself is left alone.
void chooseMediaBackend();

} // namespace ramplight
