// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk
import Ramplight.Theme

// The handover record on the screen: its pages, saved or printed.
ScreenFrame {
    id: root

    required property string carId
    readonly property RecordView view: shell.record
    // Made is not yet seen: pages are drawn on another thread.
    property bool drawn: false

    lead: shell.car.stockNumber
    rest: qsTr("Handover record")
    second: view.made ? view.fingerprint : ""

    Component.onCompleted: {
        root.shell.car.open(root.carId)
        root.makeWhenKnown()
    }
    Component.onDestruction: root.view.close()

    function makeWhenKnown(): void {
        if (root.shell.car.loaded && root.shell.car.carId === root.carId && !root.view.made && !root.view.ask.busy)
            root.view.make(root.carId, root.shell.car.stockNumber)
    }

    Connections {
        target: root.shell.car

        function onChanged(): void {
            root.makeWhenKnown()
        }
    }

    ListView {
        id: pages

        readonly property real pageLength: root.tall ? width * 1.4142 : height / 1.4142
        readonly property real begin: root.tall ? contentY - originY : contentX - originX
        // Those of which at least half is in sight.
        readonly property int firstSeen: Math.max(1, Math.min(count, 1 + Math.round(begin / (pageLength + spacing))))
        readonly property int lastSeen: Math.max(firstSeen, Math.min(count, Math.round((begin + (root.tall ? height : width)) / (pageLength + spacing))))
        // Further pages are not in sight, nor that there are any.
        readonly property string seenWords: count === 0 || lastSeen - firstSeen + 1 === count ? ""
            : firstSeen === lastSeen ? qsTr("page %1 of %2").arg(firstSeen).arg(count)
            : qsTr("pages %1 to %2 of %3").arg(firstSeen).arg(lastSeen).arg(count)

        anchors.fill: parent
        orientation: root.tall ? ListView.Vertical : ListView.Horizontal
        spacing: Theme.module
        clip: true
        model: root.view.pageUrls

        delegate: Image {
            required property string modelData

            height: root.tall ? pages.width * 1.4142 : pages.height
            width: height / 1.4142
            source: modelData
            sourceSize.width: Math.ceil(width)
            sourceSize.height: Math.ceil(height)
            fillMode: Image.PreserveAspectFit
            asynchronous: true
            onStatusChanged: {
                if (status === Image.Ready)
                    root.drawn = true
            }
        }
    }

    Waiting {
        anchors.centerIn: parent
        visible: !root.drawn && !root.view.ask.refused
        text: qsTr("Making the record")
    }

    Banner {
        anchors { left: parent.left; right: parent.right; bottom: parent.bottom }
        visible: root.view.ask.refused || root.view.savedPath.length > 0 || root.view.printedWords.length > 0
        kind: root.view.ask.refused ? Banner.Fault : Banner.Note
        done: !root.view.ask.refused
        what: root.view.ask.refused ? root.view.ask.words
            : root.view.printedWords.length > 0 ? root.view.printedWords : qsTr("Saved: %1").arg(root.view.savedPath)
        action: root.view.ask.canRetry ? qsTr("Try again") : ""
        closable: root.view.ask.refused
        onActed: root.view.ask.retry()
        onClosed: root.view.ask.dismiss()
    }

    ways: [
        Label {
            height: Theme.touch
            leftPadding: Theme.module
            visible: text.length > 0
            text: pages.seenWords
            paper: false
            muted: true
            verticalAlignment: Text.AlignVCenter
        }
    ]

    actions: [
        ActionButton {
            text: qsTr("Print")
            visible: root.view.printer.length > 0
            available: root.view.made && !root.view.ask.busy
            onTapped: root.view.print()
        },
        ActionButton {
            text: qsTr("Onto the stick")
            visible: root.view.stick.length > 0
            available: root.view.made && !root.view.ask.busy
            onTapped: root.view.saveToStick()
        },
        ActionButton {
            kind: ActionButton.Accent
            text: qsTr("Save as PDF")
            available: root.view.made && !root.view.ask.busy
            onTapped: root.view.save()
        }
    ]
}
