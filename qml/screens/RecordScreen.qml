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
        what: root.view.ask.refused ? root.view.ask.words
            : root.view.printedWords.length > 0 ? root.view.printedWords : qsTr("Saved: %1").arg(root.view.savedPath)
        action: root.view.ask.canRetry ? qsTr("Try again") : ""
        closable: root.view.ask.refused
        onActed: root.view.ask.retry()
        onClosed: root.view.ask.dismiss()
    }

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
